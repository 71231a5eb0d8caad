import type { FirmTransaction } from "../../db/scope.ts";
import { Problem } from "../../errors.ts";
import { findErasure } from "./store.ts";

/** Whoever was erased is not filled in again, under this reference or another's. */
export async function refuseErased(
  tx: FirmTransaction,
  { id, reference }: { id: string; reference: string },
): Promise<void> {
  if (!(await findErasure(tx, id))) return;
  throw new Problem("conflict", `${reference} was erased, for good. Take on a new customer.`);
}
