// A limit as the page states it ("15 MB", "30 days") and as the code has it (`NAME = 15 * 60_000`).
import type { ProjectFile } from "../../tidy/project-files.ts";

const BYTES: Record<string, number> = { KB: 1024, MB: 1024 * 1024 };
const SECONDS: Record<string, number> = { s: 1, min: 60, h: 3600, days: 86_400 };

/** The number in the unit that the constant's name ends with: _MS, _S, _DAYS, or none. */
export function stated(text: string, name: string): number {
  const [, digits = "", unit = ""] = /^(\d+)(?: (\w+))?$/.exec(text) ?? [];
  if (digits === "") throw new Error(`"${text}" is no limit`);
  const count = Number(digits);
  if (unit === "") return count;
  if (unit in BYTES) return count * BYTES[unit]!;
  const seconds = count * (SECONDS[unit] ?? Number.NaN);
  if (/_MS$|_timeout$/.test(name)) return seconds * 1000;
  if (/_S$/.test(name)) return seconds;
  if (/DAYS(?:_MOST)?$/.test(name)) return seconds / 86_400;
  return Number.NaN;
}

/** The value of a constant, or of a member of that name, that is written as a product. */
export function inCode({ text, path }: ProjectFile, name: string): number {
  const written = new RegExp(`\\b${name}(?: =|:) ([\\d_ *]+)[;,]`).exec(text)?.[1];
  if (written === undefined) throw new Error(`${path} has no ${name}`);
  return written
    .split("*")
    .map((factor) => Number(factor.replaceAll("_", "").trim()))
    .reduce((product, factor) => product * factor, 1);
}

/** Constants that bound size, pace or time of what comes from outside, in what is served. */
const ENDINGS = "BYTES_MOST|_A_MINUTE|_WITHIN_MS|LIFE_(?:S|MS|DAYS)|FAILURES_PER_\\w+";
const BOUND = new RegExp(`^(?:export )?const (\\w*(?:${ENDINGS}))\\b`, "gm");

export const boundsOf = (files: readonly ProjectFile[]): string[] =>
  files
    .filter(({ path }) => /^src\/(?:app\.ts|web\/|features\/)/.test(path))
    .flatMap(({ path, text }) => [...text.matchAll(BOUND)].map(([, name]) => `${name} in ${path}`));
