import type { FirmTransaction } from "../../db/scope.ts";
import { type FieldError, Problem } from "../../errors.ts";
import { type PackRow, placePacks, takePacks } from "./store.ts";

/** Makes these packs the bank, each in its place. The bank must be locked by the caller. */
export async function putPacks(
  tx: FirmTransaction,
  bank: { id: string; siteId: string },
  packs: { unitId: string; position: number }[],
): Promise<void> {
  const ids = packs.map(({ unitId }) => unitId);
  const rows = await takePacks(tx, bank.id, ids);
  const errors = ids.flatMap((id, index): FieldError[] => {
    const fault = faultOf(
      rows.find((row) => row.id === id),
      bank,
    );
    return fault ? [{ pointer: `/body/packs/${index}/unitId`, detail: fault }] : [];
  });
  if (errors.length > 0) {
    const detail = "A bank is made of battery packs installed at its own site.";
    throw new Problem("invalid-input", detail, { errors });
  }
  await placePacks(tx, bank.id, packs);
}

function faultOf(
  row: PackRow | undefined,
  bank: { id: string; siteId: string },
): string | undefined {
  if (!row) return "There is no such unit in your firm.";
  if (row.siteId !== bank.siteId) {
    return "is not installed at the bank's site: record that first";
  }
  if (row.kind !== "battery-pack") return `is a ${row.kind}, not a battery pack`;
  const isFree = row.bankId === null || row.bankId === bank.id;
  return isFree ? undefined : "belongs to another bank of the site: take it out there first";
}
