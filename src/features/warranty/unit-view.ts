import type { FirmTransaction } from "../../db/scope.ts";
import { notFound } from "../../errors.ts";
import type { ShownLanguage } from "../../language/languages.ts";
import type { Role } from "../../web/roles.ts";
import { domainTerms, judgeUnits } from "./judge.ts";
import type { UnitWarranty } from "./schemas.ts";
import { readTerms } from "./store.ts";
import { termsWords, warrantyLine } from "./warranty-view.ts";

export const MAY_REGISTER: readonly Role[] = ["owner", "office", "manager"];

export async function oneWarranty(
  tx: FirmTransaction,
  unitId: string,
  now: Date,
): Promise<UnitWarranty> {
  const [found] = await judgeUnits(tx, { unitId, most: 1 }, now);
  if (!found) throw notFound("unit");
  return found;
}

/** What parts/unit-warranty.hbs shows. */
export async function unitWarrantyView(
  tx: FirmTransaction,
  unitId: string,
  { now, language, roles }: { now: Date; language: ShownLanguage; roles: readonly Role[] },
) {
  const found = await oneWarranty(tx, unitId, now);
  const [terms] = found.terms ? await readTerms(tx, [found.terms.id]) : [];
  return {
    ...warrantyLine(found, language),
    terms: terms && termsWords(domainTerms(terms), language),
    source: terms?.source,
    mayRegister: roles.some((role) => MAY_REGISTER.includes(role)),
  };
}
