import type { ShownLanguage } from "../../language/languages.ts";
import { number } from "../../language/moments.ts";

const UNITS = ["kB", "MB", "GB", "TB"] as const;

/** "12.3 MB", in steps of a thousand (SI). */
export function bytesText(bytes: number, language: ShownLanguage): string {
  const steps = UNITS.filter((_, index) => index > 0 && bytes >= 1000 ** (index + 1)).length;
  const rounded = Math.max(0.1, Math.round((bytes / 1000 ** (steps + 1)) * 10) / 10);
  return `${number(language, rounded)} ${UNITS[steps]}`;
}
