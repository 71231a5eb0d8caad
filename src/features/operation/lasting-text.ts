import { LOCALES, type ShownLanguage } from "../../language/languages.ts";

const STEPS = [
  ["day", 24 * 3600],
  ["hour", 3600],
  ["minute", 60],
  ["second", 1],
] as const;

/** "3 hr": how long something lasts, in the largest unit of which there are at least two. */
export function lastingText(language: ShownLanguage, seconds: number): string {
  const [unit, length] = STEPS.find(([, each]) => seconds >= 2 * each) ?? (["second", 1] as const);
  const style = { style: "unit", unit, unitDisplay: "short" } as const;
  return new Intl.NumberFormat(LOCALES[language], style).format(Math.floor(seconds / length));
}
