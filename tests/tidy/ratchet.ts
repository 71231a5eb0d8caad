import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import {
  FILE_LINES_MAX,
  FUNCTION_LINES_MAX,
  fileLengths,
  functionLengths,
  type Lengths,
  overLimit,
  wideLines,
} from "./lengths.ts";
import type { ProjectFile } from "./project-files.ts";

/** What is longer than the limits and may only shrink. */
export type Ratchet = { fileLines: Lengths; functionLines: Lengths; wideLines: Lengths };

const PATH = join(import.meta.dirname, "ratchet.json");

export function readRatchet(): Ratchet {
  return JSON.parse(readFileSync(PATH, "utf8"));
}

/** Takes today's lengths for the table; whether it may grow is for the reader of the change. */
export function writeRatchet(files: readonly ProjectFile[]): void {
  const ratchet: Ratchet = {
    fileLines: overLimit(fileLengths(files), FILE_LINES_MAX),
    functionLines: overLimit(functionLengths(files), FUNCTION_LINES_MAX),
    wideLines: overLimit(wideLines(files), 0),
  };
  writeFileSync(PATH, `${JSON.stringify(ratchet, null, 2)}\n`);
}
