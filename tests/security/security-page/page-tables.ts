// The tables of docs/security.md, as their cells stand there.
import { readFileSync } from "node:fs";

const page = readFileSync(new URL("../../../docs/security.md", import.meta.url), "utf8");

/** Rows of every table under a heading, without their heads. */
export function tableRows(heading: string): string[][] {
  const section = page.split(/^## /m).find((part) => part.startsWith(`${heading}\n`));
  if (!section) throw new Error(`docs/security.md has no section "${heading}"`);
  return section
    .split(/\n{2,}/)
    .filter((block) => block.trimStart().startsWith("|"))
    .flatMap((table) =>
      table
        .trim()
        .split("\n")
        .slice(2)
        .map((line) =>
          line
            .split("|")
            .slice(1, -1)
            .map((cell) => cell.trim()),
        ),
    );
}

/** What stands in back quotes in a cell. */
export const quoted = (cell: string): string[] =>
  [...cell.matchAll(/`([^`]+)`/g)].map(([, text]) => text!);
