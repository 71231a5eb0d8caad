import type { FirmTransaction } from "../../db/scope.ts";
import { type Beginning, beginAuditing } from "../audit-access/give-access.ts";
import { insertPerson, insertPersonUnlessTaken, type NewPersonRow } from "./store.ts";

/** Adds a person; an auditor with what they may see. */
export async function addPerson(
  tx: FirmTransaction,
  person: NewPersonRow,
  beginning: Beginning = { now: new Date() },
) {
  const row = await insertPerson(tx, person);
  await beginAuditing(tx, row, beginning);
  return row;
}

/** Undefined when somebody, in whichever firm, signs in with this address already. */
export async function addPersonUnlessTaken(
  tx: FirmTransaction,
  person: NewPersonRow,
  beginning: Beginning,
) {
  const row = await insertPersonUnlessTaken(tx, person);
  if (row) await beginAuditing(tx, row, beginning);
  return row;
}
