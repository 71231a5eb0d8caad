import type { FirmTransaction } from "../../db/scope.ts";
import { invalid, notFound, Problem } from "../../errors.ts";
import { editedMeanwhile } from "../../web/etag.ts";
import { readFirm } from "../firms/store.ts";
import { findConflicts } from "../visits/bookings-store.ts";
import { shownConflict } from "../visits/conflicts.ts";
import { spanText } from "../visits/span.ts";
import type { AbsenceEdit, NewAbsence } from "./schemas.ts";
import { type AbsenceSpan, givenSpan } from "./span.ts";
import {
  type AbsenceFields,
  type AbsenceRow,
  absencesDuring,
  addAbsence,
  editAbsence,
  findAbsence,
  lockPerson,
  putAbsenceBack,
} from "./store.ts";

export async function enterAbsence(tx: FirmTransaction, fields: NewAbsence): Promise<AbsenceRow> {
  const { timeZone } = await readFirm(tx);
  const person = await lockPerson(tx, fields.personId);
  if (!person) throw invalid("/body/personId", "There is no such person in your firm.");
  const span = givenSpan(fields, timeZone);
  if (!span) throw new Error("an absence passed its schema without its times");
  await requireFree(tx, person, span, timeZone);
  const { reason, note } = fields;
  return readAbsence(tx, await addAbsence(tx, person.id, { ...span, reason, note }));
}

export async function changeAbsence(
  tx: FirmTransaction,
  id: string,
  version: number,
  change: AbsenceEdit,
): Promise<AbsenceRow> {
  const before = await readAbsence(tx, id);
  const { timeZone } = await readFirm(tx);
  const person = await lockPerson(tx, before.person.id);
  const span = givenSpan(change, timeZone) ?? before;
  if (person) await requireFree(tx, person, span, timeZone, id);
  const { reason = before.reason, note = before.note } = change;
  const { startsAt, endsAt } = span;
  if (!(await editAbsence(tx, id, version, { startsAt, endsAt, reason, note }))) {
    throw editedMeanwhile();
  }
  return readAbsence(tx, id);
}

/** Undoes a removal, where the hours are still free; asked a second time, it changes nothing. */
export async function restoreAbsence(
  tx: FirmTransaction,
  { id, personId, ...fields }: AbsenceFields & { id: string; personId: string },
): Promise<void> {
  const { timeZone } = await readFirm(tx);
  const person = await lockPerson(tx, personId);
  if (!person) throw invalid("/body/personId", "There is no such person in your firm.");
  await requireFree(tx, person, fields, timeZone, id);
  await putAbsenceBack(tx, { id, personId, ...fields });
}

export async function readAbsence(tx: FirmTransaction, id: string): Promise<AbsenceRow> {
  const row = await findAbsence(tx, id);
  if (!row) throw notFound("absence");
  return row;
}

/** Nobody is away while booked: the visits are moved first, or another crew goes. */
async function requireFree(
  tx: FirmTransaction,
  person: { id: string; name: string },
  span: AbsenceSpan,
  timeZone: string,
  ownId?: string,
): Promise<void> {
  const held = { personIds: [person.id], instrumentIds: [] };
  const conflicts = await findConflicts(tx, held, span);
  const [first] = conflicts;
  if (first) {
    const more = conflicts.length > 1 ? ` and ${conflicts.length - 1} more` : "";
    throw new Problem(
      "double-booked",
      `${person.name} is booked for ${first.jobReference}, ${spanText(first, timeZone)} ` +
        `(${timeZone})${more}. Move the visits first, or send others.`,
      { conflicts: conflicts.map(shownConflict) },
    );
  }
  const [other] = await absencesDuring(tx, span, [person.id], ownId);
  if (!other) return;
  throw new Problem(
    "conflict",
    `${person.name} is entered as away already, ${spanText(other, timeZone)} (${timeZone}). ` +
      "Change that absence instead.",
    { absenceId: other.id },
  );
}
