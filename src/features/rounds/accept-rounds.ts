import type { FirmTransaction } from "../../db/scope.ts";
import { notFound, Problem } from "../../errors.ts";
import { openJob } from "../jobs/open-job.ts";
import { bookVisit, callOff, type Wanted } from "../visits/book-visit.ts";
import { NewUpdateRound, Proposal } from "./schemas.ts";
import {
  decideRound,
  findRound,
  linkVisits,
  type RoundRow,
  visitsToCome,
  waitingUpdateJob,
} from "./store.ts";

/**
 * Every stop becomes a visit of an update job, or nothing does: where the diary has changed since,
 * the refusal says what is booked there by now.
 */
export async function acceptRounds(
  tx: FirmTransaction,
  id: string,
  who: { personId: string; now: Date },
  wanted: Wanted,
): Promise<void> {
  const round = await readRound(tx, id);
  if (!(await decideRound(tx, id, "accepted", who.now))) throw decidedAlready(round);
  const request = NewUpdateRound.parse(round.request);
  const { rounds } = Proposal.parse(round.proposal);
  if (round.replacesId) {
    for (const visitId of await visitsToCome(tx, round.replacesId, who.now)) {
      await callOff(tx, visitId);
    }
  }
  const visitIds: string[] = [];
  for (const { crewId, stops } of rounds) {
    for (const stop of stops) {
      const jobId =
        (await waitingUpdateJob(tx, stop.siteId, who.now)) ??
        (await openUpdateJob(tx, request.planId, stop, who));
      const { startsAt, endsAt } = stop;
      const fields = { crewId, startsAt, endsAt, instrumentIds: [] };
      visitIds.push((await bookVisit(tx, jobId, fields, wanted)).id);
    }
  }
  await linkVisits(tx, id, visitIds);
}

type Stop = Proposal["rounds"][number]["stops"][number];

const openUpdateJob = (
  tx: FirmTransaction,
  planId: string,
  { siteId, unitIds }: Stop,
  { personId, now }: { personId: string; now: Date },
): Promise<string> =>
  openJob(
    tx,
    {
      ...{ siteId, kind: "firmware", planId, title: titleFor(unitIds.length) },
      units: unitIds.map((unitId) => ({ unitId })),
    },
    personId,
    now,
  );

const titleFor = (units: number): string =>
  units === 1 ? "Firmware update, 1 unit" : `Firmware update, ${units} units`;

export async function dropRounds(tx: FirmTransaction, id: string, now: Date): Promise<void> {
  const round = await readRound(tx, id);
  if (!(await decideRound(tx, id, "dropped", now))) throw decidedAlready(round);
}

export async function readRound(tx: FirmTransaction, id: string): Promise<RoundRow> {
  const row = await findRound(tx, id);
  if (!row) throw notFound("update round");
  return row;
}

const decidedAlready = ({ reference, state }: RoundRow): Problem =>
  new Problem("conflict", `${reference} is ${state} already. Plan rounds anew.`);
