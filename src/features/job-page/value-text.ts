// What was read, in words: in the firm's unit, with what was typed beside it where that is another.
import { counterpart, type UnitSystem } from "../../domain/quantities/display-unit.ts";
import { formatQuantity } from "../../domain/quantities/format-quantity.ts";
import { isUnit } from "../../domain/quantities/units.ts";
import type { ShownLanguage } from "../../language/languages.ts";
import { say } from "../../language/say.ts";
import { asKept } from "../../web/as-kept.ts";
import type { AnswerValue } from "../answers/schemas.ts";

interface Reading {
  number: number | string;
  unit: string;
}

export function readingText({ number, unit }: Reading, system: UnitSystem): string {
  const typed = `${number} ${unit}`.trim();
  const value = Number(String(number).replace(",", "."));
  if (!isUnit(unit) || !Number.isFinite(value) || counterpart(unit, system) === unit) return typed;
  return `${formatQuantity(value, unit, { system })} (${typed})`;
}

type Value = typeof AnswerValue._output;

export function valueText(
  value: unknown,
  system: UnitSystem,
  language: ShownLanguage,
): string | undefined {
  const given = value as Value;
  if ("done" in given) return say(language, given.done ? "job.value.done" : "job.value.notDone");
  if ("number" in given) return readingText(given as Reading, system);
  if ("points" in given) {
    const setting = readingText(given.setting, system);
    return say(language, "job.value.tightened", { count: given.points.length, setting });
  }
  if ("count" in given) return String(given.count);
  if ("choice" in given) return given.choice;
  if ("text" in given) return given.text;
  if ("positions" in given) {
    return Object.entries(given.positions)
      .map(([name, position]) => `${name}: ${position}`)
      .join(", ");
  }
  return "name" in given ? asKept(language, given.name) : undefined;
}
