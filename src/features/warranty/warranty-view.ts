// How a warranty stands, in the reader's words.
import type { WarrantyTerms } from "../../domain/warranty/terms.ts";
import type { ShownLanguage } from "../../language/languages.ts";
import { number, plainDay } from "../../language/moments.ts";
import { say } from "../../language/say.ts";
import type { UnitWarranty } from "./schemas.ts";

const SIGNS = { "in-term": "good", "at-risk": "warn", lapsed: "bad", expired: "bad" } as const;
const MARKS = { good: "✓", warn: "▲", bad: "✗" } as const;

export type WarrantyLine = ReturnType<typeof warrantyLine>;

export function warrantyLine(row: UnitWarranty, language: ShownLanguage) {
  const day = (text: string | null | undefined) => (text ? plainDay(language, text) : null);
  const { state, throughput, registration } = row;
  const sign = state !== null && state !== "pending" ? SIGNS[state] : undefined;
  return {
    ...{ unitId: row.unitId, serial: row.serial, modelCode: row.modelCode, siteId: row.siteId },
    siteReference: row.siteReference,
    ...{ hasTerms: row.terms !== null, sign, mark: sign && MARKS[sign] },
    stateName: say(language, `warranty.state.${state ?? "none"}`),
    reasons: row.reasons.map((reason) => say(language, `warranty.reason.${reason}`)),
    gaps: row.gaps.map((gap) => say(language, `warranty.gap.${gap}`)),
    commissionedOn: day(row.commissionedOn),
    endsOn: day(row.endsOn),
    registerBy: registration === null ? day(row.registerBy) : null,
    firmwareBy: row.gaps.includes("firmware") ? day(row.firmwareBy) : null,
    registered: registration && { ...registration, day: day(registration.registeredOn) },
    used: throughput && number(language, Math.round(throughput.usedKwh)),
    usedOn: throughput && day(throughput.readOn),
    projected: throughput && number(language, Math.round(throughput.projectedKwh)),
    limitOn: day(throughput?.limitOn),
  };
}

/** What the maker promises, and on which conditions, one sentence each. */
export function termsWords(terms: WarrantyTerms, language: ShownLanguage): string[] {
  const { years, throughputKwh, registerWithinDays: days, firmware, temperature } = terms;
  const words = [say(language, "warranty.terms.years", { years })];
  const add = (...told: Parameters<typeof say> extends [unknown, ...infer Rest] ? Rest : never) =>
    words.push(say(language, ...told));
  if (throughputKwh !== undefined) {
    add("warranty.terms.throughput", { kwh: number(language, throughputKwh) });
  }
  if (days !== undefined) add("warranty.terms.register", { days });
  if (terms.evidenceNeeded) add("warranty.terms.evidence");
  if (firmware)
    add("warranty.terms.firmware", { level: firmware.level, days: firmware.withinDays });
  if (temperature) {
    const { lowest, highest } = temperature;
    add("warranty.terms.temperature", {
      ...{ lowest: number(language, lowest), highest: number(language, highest) },
    });
  }
  if (terms.endMovesToWorkingDay) add("warranty.terms.workingDay");
  return words;
}
