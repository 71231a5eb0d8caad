// Two records of one customer or one place become one: what points at the one points at the other
// afterwards, and the old reference leads there. Nothing is rewritten that a ledger says.
import type { FirmTransaction } from "../../db/scope.ts";
import { invalid, notFound, Problem } from "../../errors.ts";
import { appendToLedger } from "../ledger/store.ts";
import { refuseErased } from "../privacy/refuse-erased.ts";
import { changeRecord, commonBankNames, fillable, hasSurvey } from "./fields-store.ts";
import { refuseMerged } from "./refuse-merged.ts";
import {
  addMerge,
  beginMoving,
  endMoving,
  findMergeable,
  keepOutcome,
  lockPair,
  type Mergeable,
  type MergeKind,
  type MergeRow,
  type MovedPart,
  moveReferences,
} from "./store.ts";

export interface MergeWish {
  kind: MergeKind;
  fromId: string;
  intoId: string;
  personId: string;
}

export async function mergeRecords(
  tx: FirmTransaction,
  { kind, fromId, intoId, personId }: MergeWish,
  now: Date,
): Promise<MergeRow> {
  if (fromId === intoId) throw invalid("/body/intoId", "is the record itself");
  await lockPair(tx, kind, [fromId, intoId]);
  const from = await findMergeable(tx, kind, fromId);
  const into = await findMergeable(tx, kind, intoId);
  if (!from) throw notFound(kind);
  if (!into) throw invalid("/body/intoId", `There is no such ${kind} in your firm.`);
  await refuseMerged(tx, kind, from);
  await refuseMerged(tx, kind, into);
  if (kind === "customer") await refuseErased(tx, from);
  if (into.archivedAt) throw conflict(`${into.reference} is archived. Bring it back first.`);
  if (kind === "site") await refuseUnlikeSites(tx, from, into);

  const wasArchivedAt = from.archivedAt;
  const mergeId = await addMerge(tx, { kind, fromId, intoId, personId, wasArchivedAt }, now);
  await beginMoving(tx, mergeId);
  // A site that has a survey of its own keeps it as the current one.
  const leave = kind === "site" && (await hasSurvey(tx, intoId)) ? ["survey"] : [];
  const moved = await moveReferences(tx, { kind, fromId, intoId, leave });
  const filled = fillable(kind, from, into);
  const intoVersion = await changeRecord(tx, kind, intoId, filled);
  const fromVersion = await changeRecord(tx, kind, fromId, {
    archivedAt: from.archivedAt ?? now,
    mergedIntoId: intoId,
  });
  await endMoving(tx);
  await tellLedgers(tx, moved, { kind: "site.merged", body: { mergeId, fromId, intoId }, at: now });
  return keepOutcome(tx, mergeId, { moved, filled, fromVersion, intoVersion });
}

/** Each job that changed its site says so in its own ledger. */
export async function tellLedgers(
  tx: FirmTransaction,
  moved: readonly MovedPart[],
  entry: { kind: string; body: object; at: Date },
): Promise<void> {
  const jobs = moved.find(({ table, column }) => table === "job" && column === "site_id");
  for (const { key } of jobs?.rows ?? []) await appendToLedger(tx, key, entry);
}

type Site = Mergeable & { customerId?: string };

async function refuseUnlikeSites(tx: FirmTransaction, from: Site, into: Site): Promise<void> {
  if (from.customerId !== into.customerId) {
    throw conflict(
      `${from.reference} and ${into.reference} belong to different customers. Merge the ` +
        "customers first, or edit the customer of one site.",
    );
  }
  const names = await commonBankNames(tx, from.id, into.id);
  if (names.length === 0) return;
  throw conflict(
    `Both sites have a bank named ${names.join(", ")}. Rename one of each (PATCH /api/v1/banks), ` +
      "then merge.",
    { reasons: names.map((name) => ({ bank: name })) },
  );
}

const conflict = (sentence: string, extras: Record<string, unknown> = {}): Problem =>
  new Problem("conflict", sentence, extras);
