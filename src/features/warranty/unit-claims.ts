import type { FirmTransaction } from "../../db/scope.ts";
import type { ShownLanguage } from "../../language/languages.ts";
import { listClaims, serialsOf } from "./claim-store.ts";
import { claimTag } from "./claim-view.ts";

const CLAIMS_SHOWN = 20;

/** Claims for a unit, and those that it came in answer to; the chain is told at both ends. */
export async function unitClaims(tx: FirmTransaction, unitId: string, language: ShownLanguage) {
  const rows = await listClaims(tx, { unitId, most: CLAIMS_SHOWN });
  const ids = rows.flatMap((row) => [row.unitId, row.replacementUnitId ?? []].flat());
  const serials = await serialsOf(tx, [...new Set(ids)]);
  const named = (id: string | null) =>
    id !== null && id !== unitId ? { id, serial: serials.get(id) } : undefined;
  return rows.map((row) => ({
    ...{ id: row.id, reference: row.reference, fault: row.fault, ...claimTag(row, language) },
    answeredUnit: named(row.unitId),
    replacement: named(row.replacementUnitId),
  }));
}
