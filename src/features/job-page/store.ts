import type { FirmTransaction } from "../../db/scope.ts";
import type { JsonObject } from "../../domain/evidence/salted-texts.ts";
import { bodyAsWritten, textsOf } from "../ledger/texts-store.ts";

const PHOTOS_SHOWN = 24;
const SNAGS_SHOWN = 50;

/** The newest pictures, and how many there are. */
export async function lastPhotos(tx: FirmTransaction, jobId: string, most = PHOTOS_SHOWN) {
  const where = { firmId: tx.firmId, jobId };
  const rows = await tx.photo.findMany({
    where,
    include: { person: { select: { name: true } } },
    orderBy: { id: "desc" },
    take: most,
  });
  return { rows, count: await tx.photo.count({ where }) };
}

export type PhotoRow = Awaited<ReturnType<typeof lastPhotos>>["rows"][number];

/** A picture with those before and after it. */
export async function photoBetween(tx: FirmTransaction, jobId: string, sha256: string) {
  const { firmId } = tx;
  const photo = await tx.photo.findUnique({
    where: { firmId_jobId_sha256: { firmId, jobId, sha256 } },
    include: { person: { select: { name: true } } },
  });
  if (!photo) return undefined;
  const neighbour = (id: { lt: string } | { gt: string }, order: "asc" | "desc") =>
    tx.photo.findFirst({
      where: { firmId, jobId, id },
      select: { sha256: true },
      orderBy: { id: order },
    });
  const newer = await neighbour({ gt: photo.id }, "asc");
  const older = await neighbour({ lt: photo.id }, "desc");
  return { photo, newer: newer?.sha256, older: older?.sha256 };
}

/** Open ones first, each with its follow-up. */
export async function jobSnags(tx: FirmTransaction, jobId: string) {
  return tx.snag.findMany({
    where: { firmId: tx.firmId, jobId },
    include: {
      raisedBy: { select: { name: true } },
      mendedBy: { select: { name: true } },
      followUpJob: { select: { id: true, reference: true, state: true } },
      followUpVisit: { select: { startsAt: true, state: true } },
    },
    orderBy: [{ state: "desc" }, { id: "asc" }],
    take: SNAGS_SHOWN,
  });
}

/** The snag that this job was opened for, if it was. */
export async function snagFollowedUpBy(tx: FirmTransaction, jobId: string) {
  return tx.snag.findFirst({
    where: { firmId: tx.firmId, followUpJobId: jobId },
    select: { id: true, title: true, job: { select: { id: true, reference: true } } },
  });
}

/** The latest first. */
export async function jobVisits(tx: FirmTransaction, jobId: string) {
  return tx.visit.findMany({
    where: { firmId: tx.firmId, jobId },
    include: {
      crew: { select: { name: true } },
      bookings: {
        where: { personId: { not: null } },
        select: { person: { select: { name: true } } },
      },
    },
    orderBy: [{ startsAt: "desc" }, { id: "desc" }],
    take: 50,
  });
}

export interface HistoryRow {
  seq: number;
  kind: string;
  at: string;
  /** As it was written, as far as that is kept. */
  body: JsonObject;
}

/** Entries of the ledger, the newest first. */
export async function lastEntries(
  tx: FirmTransaction,
  jobId: string,
  page: { before?: number; most: number },
): Promise<HistoryRow[]> {
  const rows = await tx.ledgerEntry.findMany({
    where: {
      firmId: tx.firmId,
      jobId,
      ...(page.before === undefined ? {} : { seq: { lt: page.before } }),
    },
    select: { seq: true, kind: true, at: true, text: true },
    orderBy: { seq: "desc" },
    take: page.most,
  });
  const seqs = rows.map(({ seq }) => seq);
  const texts = await textsOf(tx, jobId, seqs);
  return rows.map(({ text, ...row }) => ({
    ...row,
    body: bodyAsWritten({ seq: row.seq, text }, texts),
  }));
}
