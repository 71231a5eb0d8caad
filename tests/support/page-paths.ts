import { readdirSync, readFileSync } from "node:fs";

/** The addresses of pages, read off the code that adds them. */
export function pagePaths(): string[] {
  const files = readdirSync("src/features", { recursive: true, encoding: "utf8" });
  const sources = files
    .filter((file) => file.endsWith("pages.ts"))
    .map((file) => readFileSync(`src/features/${file}`, "utf8"));
  return sources.flatMap((source) =>
    [...source.matchAll(/app\.get\(\s*"(\/[^"]*)"/g)].map(([, path = ""]) => path),
  );
}
