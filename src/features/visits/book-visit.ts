import type { Database } from "../../db/client.ts";
import { type FirmTransaction, inFirm } from "../../db/scope.ts";
import { type FieldError, invalid, notFound, Problem } from "../../errors.ts";
import { databaseProblem } from "../../web/database-problem.ts";
import { editedMeanwhile } from "../../web/etag.ts";
import { takeOpenJob } from "../jobs/take-job.ts";
import {
  type Bookable,
  type Conflict,
  cancelVisit,
  findConflicts,
  type Held,
  holdForVisit,
  lockBookable,
} from "./bookings-store.ts";
import type { NewVisit, VisitEdit } from "./schemas.ts";
import { type Span, spanOf, spanText } from "./span.ts";
import { addVisit, editVisit, findVisit, type VisitRow } from "./store.ts";

/** What a booking wants, to tell what was in its way when the database refuses it in a race. */
export interface Wanted {
  held?: Held;
  span?: Span;
  timeZone?: string;
  ownVisitId?: string;
}

export async function bookVisit(
  tx: FirmTransaction,
  jobId: string,
  fields: NewVisit,
  wanted: Wanted,
): Promise<VisitRow> {
  const job = await takeOpenJob(tx, jobId);
  const span = spanOf(fields, job.site.timeZone);
  const { crewId, instrumentIds, note } = fields;
  const held = await takeFree(tx, { crewId, instrumentIds }, span, job.site.timeZone, wanted);
  const id = await addVisit(tx, jobId, { crewId, ...span, note });
  await holdForVisit(tx, id, held, span);
  return readVisit(tx, id);
}

export async function moveVisit(
  tx: FirmTransaction,
  id: string,
  version: number,
  change: VisitEdit,
  wanted: Wanted,
): Promise<VisitRow> {
  const before = await readVisit(tx, id);
  const { timeZone } = (await takeOpenJob(tx, before.jobId)).site;
  if (before.state === "cancelled") throw cancelledAlready();
  const span = spanOf(change, timeZone, before);
  const { crewId = before.crewId, note, ...others } = change;
  if (!(await editVisit(tx, id, version, { crewId, ...span, note }))) throw editedMeanwhile();
  const isNoteOnly = change.crewId === undefined && Object.keys(others).length === 0;
  if (!isNoteOnly) {
    const instrumentIds = change.instrumentIds ?? instrumentsOf(before);
    wanted.ownVisitId = id;
    const held = await takeFree(tx, { crewId, instrumentIds }, span, timeZone, wanted);
    await holdForVisit(tx, id, held, span);
  }
  return readVisit(tx, id);
}

const instrumentsOf = ({ bookings }: VisitRow): string[] =>
  bookings.flatMap(({ instrumentId }) => instrumentId ?? []);

export async function callOff(tx: FirmTransaction, id: string): Promise<VisitRow> {
  await readVisit(tx, id);
  if (!(await cancelVisit(tx, id))) throw cancelledAlready();
  return readVisit(tx, id);
}

export async function readVisit(tx: FirmTransaction, id: string): Promise<VisitRow> {
  const row = await findVisit(tx, id);
  if (!row) throw notFound("visit");
  return row;
}

/** Runs a booking; if the database refused it, says what is booked by now. */
export async function tellingConflicts<Result>(
  db: Database,
  firmId: string,
  booking: (wanted: Wanted) => Promise<Result>,
): Promise<Result> {
  const wanted: Wanted = {};
  try {
    return await booking(wanted);
  } catch (error) {
    const { held, span, timeZone, ownVisitId } = wanted;
    const isRaced = databaseProblem(error)?.code === "double-booked";
    if (!isRaced || !held || !span || !timeZone) throw error;
    const conflicts = await inFirm(db, firmId, (tx) => findConflicts(tx, held, span, ownVisitId));
    throw conflicts.length > 0 ? doubleBooked(conflicts, timeZone) : error;
  }
}

/** Crew, people and instruments, locked and found free. */
async function takeFree(
  tx: FirmTransaction,
  { crewId, instrumentIds }: { crewId: string; instrumentIds: string[] },
  span: Span,
  timeZone: string,
  wanted: Wanted,
): Promise<Held> {
  const bookable = await lockBookable(tx, crewId, instrumentIds);
  requireFit(bookable, instrumentIds, span);
  const held = { crewId, personIds: bookable.people.map(({ id }) => id), instrumentIds };
  Object.assign(wanted, { held, span, timeZone });
  const conflicts = await findConflicts(tx, held, span, wanted.ownVisitId);
  if (conflicts.length > 0) throw doubleBooked(conflicts, timeZone);
  return held;
}

function requireFit({ crew, people, instruments }: Bookable, ids: string[], span: Span): void {
  if (!crew) throw invalid("/body/crewId", "There is no such crew in your firm.");
  if (!crew.active) throw invalid("/body/crewId", `${crew.name} is disbanded. Send another crew.`);
  if (people.length === 0) {
    throw invalid("/body/crewId", `Nobody active is in ${crew.name}. Say who the crew is first.`);
  }
  const day = span.startsAt.toISOString().slice(0, 10);
  const errors = ids.flatMap((id, index): FieldError[] => {
    const pointer = `/body/instrumentIds/${index}`;
    const instrument = instruments.find((one) => one.id === id);
    if (!instrument) return [{ pointer, detail: "There is no such instrument in your firm." }];
    const { reference, retiredOn } = instrument;
    if (retiredOn === null || retiredOn > day) return [];
    return [{ pointer, detail: `${reference} is retired since ${retiredOn}.` }];
  });
  if (errors[0]) throw new Problem("invalid-input", errors[0].detail, { errors });
}

function doubleBooked(conflicts: Conflict[], timeZone: string): Problem {
  const [first] = conflicts as [Conflict, ...Conflict[]];
  const more = conflicts.length > 1 ? ` and ${conflicts.length - 1} more` : "";
  return new Problem(
    "double-booked",
    `${first.name} is on ${first.jobReference}, ${spanText(first, timeZone)} (${timeZone})` +
      `${more}. Choose other hours, or another crew or instrument.`,
    {
      conflicts: conflicts.map(({ startsAt, endsAt, ...conflict }) => ({
        ...conflict,
        startsAt: startsAt.toISOString(),
        endsAt: endsAt.toISOString(),
      })),
    },
  );
}

const cancelledAlready = (): Problem =>
  new Problem("conflict", "The visit was cancelled. Book a new one.");
