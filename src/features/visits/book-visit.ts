import type { Database } from "../../db/client.ts";
import { type FirmTransaction, inFirm } from "../../db/scope.ts";
import { dayAt } from "../../domain/scheduling/work-week.ts";
import { type FieldError, invalid, notFound, Problem } from "../../errors.ts";
import { databaseProblem } from "../../web/database-problem.ts";
import { editedMeanwhile } from "../../web/etag.ts";
import { absencesDuring } from "../absences/store.ts";
import { takeOpenJob } from "../jobs/take-job.ts";
import { requireQualified } from "../qualifications/require-qualified.ts";
import { raiseEvent } from "../webhooks/raise-event.ts";
import {
  type Bookable,
  cancelVisit,
  findConflicts,
  type Held,
  holdForVisit,
  lockBookable,
} from "./bookings-store.ts";
import { inTheWay } from "./conflicts.ts";
import type { NewVisit, VisitEdit } from "./schemas.ts";
import { type Span, spanOf } from "./span.ts";
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
  const held = await takeFree(tx, { crewId, instrumentIds }, span, job, wanted);
  const id = await addVisit(tx, jobId, { crewId, ...span, note });
  await holdForVisit(tx, id, held, span);
  const [startsAt, endsAt] = [span.startsAt.toISOString(), span.endsAt.toISOString()];
  const data = { visitId: id, jobId, crewId, startsAt, endsAt };
  await raiseEvent(tx, { kind: "visit.booked", data }, new Date());
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
  const job = await takeOpenJob(tx, before.jobId);
  if (before.state === "cancelled") throw cancelledAlready();
  const span = spanOf(change, job.site.timeZone, before);
  const { crewId = before.crewId, note, ...others } = change;
  if (!(await editVisit(tx, id, version, { crewId, ...span, note }))) throw editedMeanwhile();
  const isNoteOnly = change.crewId === undefined && Object.keys(others).length === 0;
  if (!isNoteOnly) {
    const instrumentIds = change.instrumentIds ?? instrumentsOf(before);
    wanted.ownVisitId = id;
    const held = await takeFree(tx, { crewId, instrumentIds }, span, job, wanted);
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
    const code = databaseProblem(error)?.code;
    const isRaced = code === "double-booked" || code === "person-absent";
    if (!isRaced || !held || !span || !timeZone) throw error;
    const refusal = await inFirm(db, firmId, (tx) =>
      refusalOf(tx, held, { span, timeZone, ownVisitId }),
    );
    throw refusal ?? error;
  }
}

/** Crew, people and instruments, locked and found fit and free. */
async function takeFree(
  tx: FirmTransaction,
  { crewId, instrumentIds }: { crewId: string; instrumentIds: string[] },
  span: Span,
  job: { kind: string; site: { timeZone: string } },
  wanted: Wanted,
): Promise<Held> {
  const { timeZone } = job.site;
  const bookable = await lockBookable(tx, crewId, instrumentIds);
  const name = requireFit(bookable, instrumentIds, span);
  const { people } = bookable;
  const day = dayAt(span.startsAt.getTime(), timeZone);
  await requireQualified(tx, { name, people }, [{ jobKind: job.kind, day }]);
  const held = { crewId, personIds: people.map(({ id }) => id), instrumentIds };
  Object.assign(wanted, { held, span, timeZone });
  const refusal = await refusalOf(tx, held, { span, timeZone, ownVisitId: wanted.ownVisitId });
  if (refusal) throw refusal;
  return held;
}

async function refusalOf(
  tx: FirmTransaction,
  held: Held,
  { span, timeZone, ownVisitId }: { span: Span; timeZone: string; ownVisitId: string | undefined },
): Promise<Problem | undefined> {
  const conflicts = await findConflicts(tx, held, span, ownVisitId);
  const away = await absencesDuring(tx, span, held.personIds);
  return inTheWay(conflicts, away, timeZone);
}

/** The name of the crew that is fit to be sent. */
function requireFit({ crew, people, instruments }: Bookable, ids: string[], span: Span): string {
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
  return crew.name;
}

const cancelledAlready = (): Problem =>
  new Problem("conflict", "The visit was cancelled. Book a new one.");
