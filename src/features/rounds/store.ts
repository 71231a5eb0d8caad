import { uuidv7 } from "uuidv7";
import { nextReference } from "../../db/references.ts";
import type { FirmTransaction } from "../../db/scope.ts";
import type { NewUpdateRound, Proposal } from "./schemas.ts";

export async function addRound(
  tx: FirmTransaction,
  fields: {
    request: NewUpdateRound;
    proposal: Proposal;
    createdById: string;
  },
  now: Date,
): Promise<string> {
  const { request, proposal, createdById } = fields;
  const { replacesId = null, ...asked } = request;
  const row = {
    ...{ firmId: tx.firmId, id: uuidv7(), reference: await nextReference(tx, "R", now) },
    ...{
      state: "proposed",
      request: asked as object,
      proposal: proposal as object,
      replacesId,
      createdById,
    },
  };
  const { id } = await tx.updateRound.create({ data: row, select: { id: true } });
  return id;
}

export async function findRound(tx: FirmTransaction, id: string) {
  return tx.updateRound.findUnique({
    where: { firmId_id: { firmId: tx.firmId, id } },
    include: { visits: { select: { visitId: true }, orderBy: { visitId: "asc" } } },
  });
}

export type RoundRow = NonNullable<Awaited<ReturnType<typeof findRound>>>;

export async function listRounds(tx: FirmTransaction, page: { after?: string; most: number }) {
  return tx.updateRound.findMany({
    where: { firmId: tx.firmId, ...(page.after ? { id: { lt: page.after } } : {}) },
    orderBy: { id: "desc" },
    take: page.most,
  });
}

/** False when somebody decided on it first. */
export async function decideRound(
  tx: FirmTransaction,
  id: string,
  state: "accepted" | "dropped",
  now: Date,
): Promise<boolean> {
  const { count } = await tx.updateRound.updateMany({
    where: { firmId: tx.firmId, id, state: "proposed" },
    data: { state, decidedAt: now, version: { increment: 1 } },
  });
  return count === 1;
}

export async function linkVisits(
  tx: FirmTransaction,
  roundId: string,
  visitIds: readonly string[],
): Promise<void> {
  await tx.updateRoundVisit.createMany({
    data: visitIds.map((visitId) => ({ firmId: tx.firmId, roundId, visitId })),
  });
}

/** Of the round's visits those that are still booked and have not begun. */
export async function visitsToCome(tx: FirmTransaction, roundId: string, now: Date) {
  const rows = await tx.updateRoundVisit.findMany({
    where: {
      ...{ firmId: tx.firmId, roundId },
      visit: { state: "booked", startsAt: { gt: now } },
    },
    select: { visitId: true },
    orderBy: { visitId: "asc" },
  });
  return rows.map(({ visitId }) => visitId);
}

/** Where sites are, by their ids. */
export async function placesOf(tx: FirmTransaction, siteIds: readonly string[]) {
  return tx.site.findMany({
    where: { firmId: tx.firmId, id: { in: [...siteIds] } },
    select: {
      id: true,
      latitude: true,
      longitude: true,
      country: true,
      region: true,
      timeZone: true,
    },
  });
}

/** The site's open update job that no visit to come is booked for. */
export async function waitingUpdateJob(
  tx: FirmTransaction,
  siteId: string,
  now: Date,
): Promise<string | undefined> {
  const job = await tx.job.findFirst({
    where: {
      ...{ firmId: tx.firmId, siteId, kind: "firmware", state: "open" },
      visits: { none: { state: "booked", endsAt: { gt: now } } },
    },
    select: { id: true },
    orderBy: { id: "asc" },
  });
  return job?.id;
}
