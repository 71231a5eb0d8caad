// The form of a model's terms is flat; the interface groups what belongs together.
import { z } from "zod";
import type { WarrantyTerms } from "../../domain/warranty/terms.ts";
import { plainDate } from "../../web/fields.ts";
import { type FormBody, type FormRead, readForm } from "../../web/form.ts";
import { NewTerms } from "./schemas.ts";

const count = z.coerce.number("must be a number").optional();
const Flat = z.strictObject({
  appliesFrom: plainDate(),
  years: z.coerce.number("must be a number"),
  ...{ throughputKwh: count, registerWithinDays: count },
  ...{ firmwareLevel: z.string().optional(), firmwareWithinDays: count },
  ...{ temperatureLowest: count, temperatureHighest: count },
  evidenceNeeded: z.literal("yes").optional(),
  endMovesToWorkingDay: z.literal("yes").optional(),
  source: z.string().optional(),
});

export function readTermsForm(typed: FormBody): FormRead<NewTerms> {
  const flat = readForm(Flat, typed);
  if (!flat.ok) return flat;
  const { firmwareLevel: level, firmwareWithinDays: withinDays, ...rest } = flat.value;
  const { temperatureLowest: lowest, temperatureHighest: highest, ...fields } = rest;
  const isOneEnd = (lowest === undefined) !== (highest === undefined);
  if (isOneEnd) return { ok: false, problems: { temperatureHighest: "Give both ends or none." } };
  const isHalf = (level === undefined) !== (withinDays === undefined);
  if (isHalf)
    return { ok: false, problems: { firmwareWithinDays: "Give level and days or none." } };
  const read = readForm(NewTerms, {
    ...fields,
    evidenceNeeded: fields.evidenceNeeded === "yes",
    endMovesToWorkingDay: fields.endMovesToWorkingDay === "yes",
    ...(level === undefined ? {} : { firmware: { level, withinDays } }),
    ...(lowest === undefined ? {} : { temperature: { lowest, highest } }),
  });
  return read.ok ? read : { ok: false, problems: flatNames(read.problems) };
}

/** Problems of the groups, at the field of the form where they can be mended. */
export const flatNames = (problems: Readonly<Record<string, string>>): Record<string, string> =>
  Object.fromEntries(
    Object.entries(problems).map(([name, text]) => [PLACES[name] ?? name, text] as const),
  );
const PLACES: Readonly<Record<string, string>> = {
  firmware: "firmwareLevel",
  temperature: "temperatureHighest",
};

/** The form filled in with terms that exist. */
export function typedTerms(
  terms: WarrantyTerms,
  { appliesFrom, source }: { appliesFrom: string; source: string | null },
): FormBody {
  const text = (value: number | undefined) => (value === undefined ? "" : String(value));
  return {
    appliesFrom,
    years: text(terms.years),
    throughputKwh: text(terms.throughputKwh),
    registerWithinDays: text(terms.registerWithinDays),
    firmwareLevel: terms.firmware?.level,
    firmwareWithinDays: text(terms.firmware?.withinDays),
    temperatureLowest: text(terms.temperature?.lowest),
    temperatureHighest: text(terms.temperature?.highest),
    evidenceNeeded: terms.evidenceNeeded ? "yes" : undefined,
    endMovesToWorkingDay: terms.endMovesToWorkingDay ? "yes" : undefined,
    source: source ?? undefined,
  };
}
