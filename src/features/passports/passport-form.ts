// The form has a field a value and one day for all that is new; what stays as it was keeps its day.
import { PASSPORT_FIELD_NAMES, PASSPORT_FIELDS } from "../../domain/passport/fields.ts";
import { plainDate } from "../../web/fields.ts";
import type { FormBody, FormRead } from "../../web/form.ts";
import { type BatteryPassport, type PassportEdit, PassportValue } from "./schemas.ts";

export function typedPassport(passport: BatteryPassport, today: string): FormBody {
  const values = passport.values.map(({ field, value }) => [field, String(value)] as const);
  const { uri, version } = passport;
  return {
    ...{ uri: uri ?? "", readOn: today, version: String(version) },
    ...Object.fromEntries(values),
  };
}

export function readPassportForm(
  typed: FormBody,
  before: BatteryPassport,
): FormRead<{ version: number; edit: PassportEdit }> {
  const text = (name: string): string => String(typed[name] ?? "").trim();
  const readOn = plainDate().safeParse(text("readOn"));
  if (!readOn.success) return { ok: false, problems: { readOn: "Give the day it was read on." } };
  const known = new Map(before.values.map((entry) => [entry.field, entry]));
  const problems: Record<string, string> = {};
  const values: PassportValue[] = [];
  for (const field of PASSPORT_FIELD_NAMES) {
    if (text(field) === "") continue;
    const value = "unit" in PASSPORT_FIELDS[field] ? Number(text(field)) : text(field);
    const old = known.get(field);
    const read = PassportValue.safeParse({
      ...{ field, value: Number.isNaN(value) ? text(field) : value },
      readOn: old && old.value === value ? old.readOn : readOn.data,
    });
    if (read.success) values.push(read.data);
    else problems[field] = read.error.issues[0]?.message ?? "";
  }
  if (Object.keys(problems).length > 0) return { ok: false, problems };
  const edit = { uri: text("uri") || null, values };
  return { ok: true, value: { version: Number(text("version")), edit } };
}
