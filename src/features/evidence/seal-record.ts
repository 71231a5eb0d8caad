// The record of a job as a bag states it: what is stored, and what the rules say of it at the
// moment of its last change, so that the same record reads the same whenever it is exported.
import { transactionQuery } from "../../db/query.ts";
import type { FirmTransaction } from "../../db/scope.ts";
import { type PhotoRecord, toAnswer } from "../../domain/evidence/bag-record.ts";
import { readingsCsv } from "../../domain/evidence/readings-csv.ts";
import { judgeRecord, sealFacts } from "../../domain/evidence/sealed-facts.ts";
import { notFound } from "../../errors.ts";
import { toContext } from "../job-record/context.ts";
import { compiledPlan } from "../job-record/plan-store.ts";
import { readJobRecord } from "../job-record/store.ts";
import {
  appendToLedger,
  exportIsKept,
  type LedgerExtent,
  lockLedger,
  recordExtent,
} from "../ledger/store.ts";
import { textsThrough } from "../ledger/texts-store.ts";
import { photoSums } from "../photos/store.ts";
import type { KeyRow } from "./key-store.ts";
import { readStoredRecord, type StoredRecord } from "./record-store.ts";
import { currentKey, type KeyPlace } from "./signing-key.ts";

export interface StatedRecord {
  job: StoredRecord["job"];
  extent: LedgerExtent;
  /** Content of each record file, by its name under data/records. */
  records: Record<string, unknown>;
  readings: string;
  photos: PhotoRecord[];
  /** What people wrote, as far as it is kept, with the salts of the hashes in the ledger. */
  texts: Awaited<ReturnType<typeof textsThrough>>;
}

export interface SealedRecord extends StatedRecord {
  key: KeyRow;
  /** SHA-512 of photos by their SHA-256, as far as known. */
  photoSums: ReadonlyMap<string, string>;
}

/** Reads the record under the job's lock. */
export async function readStatedRecord(tx: FirmTransaction, jobId: string): Promise<StatedRecord> {
  if (!(await lockLedger(tx, jobId))) throw notFound("job");
  const stored = await readStoredRecord(tx, jobId);
  if (!stored) throw notFound("job");
  const extent = await recordExtent(tx, jobId);
  const texts = await textsThrough(tx, jobId, extent.seq);
  const judged = await judgeStored(tx, stored, jobId, extent);
  return { job: stored.job, extent, photos: stored.photos, texts, ...judged };
}

/** Reads the record under the job's lock, and writes the export on its ledger. */
export async function sealRecord(
  tx: FirmTransaction,
  place: KeyPlace,
  jobId: string,
  personId: string,
  exported?: { exportId: string; key: KeyRow },
): Promise<SealedRecord> {
  const stated = await readStatedRecord(tx, jobId);
  const key = exported?.key ?? (await currentKey(tx, place));
  const { seq: throughSeq, sha256: throughSha256 } = stated.extent;
  const body = {
    format: "evidence-bag/1",
    personId,
    throughSeq,
    throughSha256,
    keySha256: key.sha256,
    ...(exported ? { exportId: exported.exportId } : {}),
  };
  // An export that was begun anew is the same export.
  if (!exported || !(await exportIsKept(tx, jobId, exported.exportId, throughSha256))) {
    await appendToLedger(tx, jobId, { kind: "evidence.exported", body, at: place.now() });
  }
  return { ...stated, key, photoSums: await photoSums(tx, jobId) };
}

async function judgeStored(
  tx: FirmTransaction,
  stored: StoredRecord,
  jobId: string,
  extent: LedgerExtent,
) {
  const query = transactionQuery(tx);
  const record = await readJobRecord(query, tx.firmId, jobId, { lock: false });
  if (!record) throw notFound("job");
  const plan = await compiledPlan(query, tx.firmId, record.job.planVersionId);
  const facts = sealFacts(toContext(record, new Date(extent.at)), record.lastOrder);
  const verdicts = judgeRecord(plan, stored.answers.map(toAnswer), facts);
  const names = new Map(stored.instruments.map(({ id, reference }) => [id, reference]));
  return {
    records: { ...recordFiles(stored), "facts.json": facts, "verdicts.json": plain(verdicts) },
    readings: readingsCsv(plan, stored.answers, names),
  };
}

const recordFiles = (stored: StoredRecord) => ({
  "job.json": stored.job,
  "plan.json": stored.plan,
  "units.json": stored.units,
  "instruments.json": stored.instruments,
  "people.json": stored.people,
  "answers.json": stored.answers,
  "concessions.json": stored.concessions,
  "photos.json": stored.photos,
  "snags.json": stored.snags,
  ...(stored.passports.length > 0 ? { "battery-passports.json": stored.passports } : {}),
  "close-out.json": { closeOuts: stored.closeOuts, reopenings: stored.reopenings },
});

/** As JSON carries it: members that are undefined are left out. */
const plain = (value: unknown): unknown => JSON.parse(JSON.stringify(value));
