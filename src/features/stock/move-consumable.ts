// Stock of what is used up is the sum of its movements, and no movement is ever changed: a slip is
// set right by another one, or by counting.
import type { FirmTransaction } from "../../db/scope.ts";
import { thousandths } from "../../domain/kit/fixings.ts";
import { invalid, notFound, Problem } from "../../errors.ts";
import { findJob } from "../jobs/store.ts";
import type { NewMovement } from "./consumable-schemas.ts";
import {
  addMovement,
  type ConsumableRow,
  findConsumable,
  lockAmountAt,
} from "./consumable-store.ts";

const DIRECTION = { received: 1, returned: 1, used: -1, "written-off": -1, moved: -1 } as const;

/** @returns the id of the movement; of a move from place to place, of the one that takes away */
export async function moveConsumable(
  tx: FirmTransaction,
  consumableId: string,
  movement: NewMovement,
  personId: string,
  at: Date,
): Promise<string> {
  const consumable = await findConsumable(tx, consumableId);
  if (!consumable) throw notFound("consumable");
  const { kind, place, toPlace, jobId, deliveryNote, note } = movement;
  if (jobId !== undefined && !(await findJob(tx, jobId))) {
    throw invalid("/body/jobId", "There is no such job in your firm.");
  }
  const there = await lockAmountAt(tx, consumableId, place);
  const amount =
    kind === "counted" ? thousandths(movement.amount - there) : DIRECTION[kind] * movement.amount;
  if (there + amount < 0) throw tooLittle(consumable, place, there);
  const texts = { deliveryNote: deliveryNote ?? null, note: note ?? null };
  const row = { consumableId, kind, place, amount, jobId: jobId ?? null, ...texts, personId, at };
  const id = await addMovement(tx, row);
  if (toPlace !== undefined) await addMovement(tx, { ...row, place: toPlace, amount: -amount });
  return id;
}

const tooLittle = ({ name, countedIn }: ConsumableRow, place: string, there: number): Problem => {
  const detail =
    `At ${place} there are ${there} ${countedIn} of ${name}. ` +
    "Count them, or record what came in first.";
  return new Problem("conflict", detail, { there });
};
