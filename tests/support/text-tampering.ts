// What somebody may do to the texts that lie beside a ledger.
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { canonicalize } from "../../src/domain/evidence/canonical-json.ts";
import type { Chance } from "./chance.ts";

export type Edit = (folder: string, chance: Chance) => void | Promise<void>;

export const TEXTS = "data/ledger/texts.jsonl";

/** Edits of the file of texts, line by line. */
const inTexts =
  (change: (lines: string[], at: number, chance: Chance) => string[]): Edit =>
  (folder, chance) => {
    const path = join(folder, TEXTS);
    const lines = readFileSync(path, "utf8").trimEnd().split("\n");
    const changed = change(lines, chance.between(0, lines.length - 1), chance);
    writeFileSync(path, changed.map((line) => `${line}\n`).join(""));
  };

const withText = (line: string, change: (text: Line) => Partial<Line>): string => {
  const text = JSON.parse(line) as Line;
  return canonicalize({ ...text, ...change(text) });
};
type Line = { entry: number; path: string; salt: string; text: string };

export const TEXT_EDITS: Readonly<Record<string, Edit>> = {
  "change a text": inTexts((lines, at) =>
    lines.with(
      at,
      withText(lines[at]!, ({ text }) => ({ text: `${text}.` })),
    ),
  ),
  "change a salt": inTexts((lines, at) =>
    lines.with(
      at,
      withText(lines[at]!, ({ salt }) => ({ salt: `${salt.slice(2)}00` })),
    ),
  ),
  "leave a text out": inTexts((lines, at) => lines.toSpliced(at, 1)),
  "leave all texts out": inTexts(() => []),
  "swap two texts": inTexts((lines, at) => {
    const other = (at + 1) % lines.length;
    const [one, two] = [lines[at]!, lines[other]!].map((line) => JSON.parse(line) as Line);
    const given = lines.with(
      at,
      withText(lines[at]!, () => ({ text: two!.text })),
    );
    return given.with(
      other,
      withText(lines[other]!, () => ({ text: one!.text })),
    );
  }),
  "move a text to another entry": inTexts((lines, at) =>
    lines.with(
      at,
      withText(lines[at]!, ({ entry }) => ({ entry: entry + 1 })),
    ),
  ),
  "add a text": inTexts((lines, at) => [
    ...lines,
    withText(lines[at]!, () => ({ entry: 99_999, text: "Put in" })),
  ]),
  "say a text twice": inTexts((lines, at) => lines.toSpliced(at, 0, lines[at]!)),
};
