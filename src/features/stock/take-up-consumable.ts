import type { FirmTransaction } from "../../db/scope.ts";
import { notFound, Problem } from "../../errors.ts";
import { addConsumable, type ConsumableRow, findConsumable } from "./consumable-store.ts";

export async function takeUpConsumable(
  tx: FirmTransaction,
  fields: Parameters<typeof addConsumable>[1],
): Promise<ConsumableRow> {
  const id = await addConsumable(tx, fields);
  if (id !== undefined) return requireConsumable(tx, id);
  throw new Problem("conflict", `There is a consumable ${fields.code} already.`, {
    errors: [{ pointer: "/body/code", detail: "is the code of another consumable" }],
  });
}

export async function requireConsumable(tx: FirmTransaction, id: string): Promise<ConsumableRow> {
  const row = await findConsumable(tx, id);
  if (!row) throw notFound("consumable");
  return row;
}
