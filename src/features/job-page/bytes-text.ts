import type { ShownLanguage } from "../../language/languages.ts";
import { number } from "../../language/moments.ts";

const UNITS = ["kB", "MB"] as const;

/** "12.3 MB", in steps of a thousand (SI). */
export function bytesText(bytes: number, language: ShownLanguage): string {
  const inMegabytes = bytes >= 1_000_000;
  const value = bytes / (inMegabytes ? 1_000_000 : 1000);
  const rounded = Math.max(0.1, Math.round(value * 10) / 10);
  return `${number(language, rounded)} ${UNITS[inMegabytes ? 1 : 0]}`;
}
