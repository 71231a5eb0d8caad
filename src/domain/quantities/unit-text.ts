// Requirement: "Nm", "N.m", "ft-lb", "VDC", U+2126 and the like are read as the unit meant;
// forms with two meanings are refused with the reason. Forms: unit-spellings.ts.

import {
  AMBIGUOUS,
  CASED_SPELLINGS,
  CURRENT_KIND,
  CURRENT_KIND_UNITS,
  SPELLINGS,
} from "./unit-spellings.ts";
import { isUnit, type Quantity, quantityOf, UNIT_SYMBOLS, type Unit } from "./units.ts";

export type UnitReading = { ok: true; unit: Unit } | { ok: false; problem: string };

/** Longer than any spelling in the tables. */
const LENGTH_LIMIT = 30;

const EITHER_CASE = tableOf(SPELLINGS);
const EXACT_CASE = tableOf(CASED_SPELLINGS);
const DOUBTFUL = new Map(
  Object.entries(AMBIGUOUS).flatMap(([form, doubt]) => [
    [form, doubt] as const,
    [form.replaceAll("_", ""), doubt] as const,
  ]),
);

/**
 * The unit a person or a sheet means, or a sentence saying why it is not clear. With `quantity`,
 * a form with two meanings ("C", "M") is read as the one unit of that quantity, if only one is.
 */
export function readUnit(text: string, quantity?: Quantity): UnitReading {
  const shown = text.trim().slice(0, LENGTH_LIMIT);
  const tidy = tidied(text.slice(0, 2 * LENGTH_LIMIT));
  if (tidy === "") return { ok: false, problem: "There is no unit." };
  if (isUnit(tidy)) return { ok: true, unit: tidy };
  const key = withoutCurrentKind(separated(tidy));
  const doubt = DOUBTFUL.get(key);
  if (!doubt) {
    const unit = known(key);
    if (unit) return { ok: true, unit };
    return { ok: false, problem: `"${shown}" is not a unit this tool knows.` };
  }
  const fitting = doubt.candidates.filter((candidate) => quantityOf(candidate) === quantity);
  const [only] = fitting;
  if (only && fitting.length === 1) return { ok: true, unit: only };
  return { ok: false, problem: `"${shown}" ${doubt.reason}.` };
}

/** The unit meant by a text, or undefined where unknown or ambiguous (readUnit says why). */
export function unitFromText(text: string): Unit | undefined {
  const reading = readUnit(text);
  return reading.ok ? reading.unit : undefined;
}

function known(key: string): Unit | undefined {
  return EXACT_CASE.get(key) ?? EITHER_CASE.get(key.toLowerCase());
}

/** One character for each sign that comes in several: NFC alone turns U+2126 into Ω. */
function tidied(text: string): string {
  return text
    .normalize("NFC")
    .replace(/℃/g, "°C")
    .replace(/℉/g, "°F")
    .replace(/[º˚]/g, "°")
    .replace(/[″“”]/g, '"')
    .replace(/[′‘’]/g, "'")
    .trim();
}

function separated(tidy: string): string {
  return tidy
    .replace(/° (?=[CF]$)/i, "°")
    .replace(/[\s.·⋅∙•×*\u2010\u2011-]{1,3}/g, "_")
    .replace(/_$/, "");
}

function withoutCurrentKind(key: string): string {
  const stem = key.replace(CURRENT_KIND, "");
  const candidates = DOUBTFUL.get(stem)?.candidates ?? [known(stem)];
  return candidates.some((unit) => unit && CURRENT_KIND_UNITS.includes(unit)) ? stem : key;
}

function tableOf(spellings: typeof SPELLINGS): Map<string, Unit> {
  const table = new Map<string, Unit>();
  for (const unit of UNIT_SYMBOLS) {
    for (const form of spellings[unit] ?? []) {
      table.set(form, unit);
      table.set(form.replaceAll("_", ""), unit);
    }
  }
  return table;
}
