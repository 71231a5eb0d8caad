// Opening and each step after it, for the API and the pages alike; where a job is concerned, the
// step is an entry in its ledger in the same transaction.
import type { FirmTransaction } from "../../db/scope.ts";
import { missingToClose } from "../../domain/corrective/follow-up.ts";
import { invalid, notFound } from "../../errors.ts";
import type { ShownLanguage } from "../../language/languages.ts";
import { say } from "../../language/say.ts";
import { editedMeanwhile } from "../../web/etag.ts";
import { isDrawn } from "../audits/sample-store.ts";
import { appendToLedger } from "../ledger/store.ts";
import type { NewNonconformance, NonconformanceEdit } from "./schemas.ts";
import { addNonconformance, editNonconformance, findNonconformance, seesAll } from "./store.ts";

export interface Who {
  personId: string;
  language: ShownLanguage;
  now: Date;
}

/** Undefined when the same failed update is on record already. */
export async function openNonconformance(
  tx: FirmTransaction,
  { dueOn, effectDueOn, ...fields }: NewNonconformance,
  { personId, now }: Who,
) {
  // The keys of the database look past the scope of an auditor.
  if (!(await seesAll(tx, fields))) throw unknownReference();
  await refuseUndrawn(tx, fields);
  const row = await referringTo(() =>
    addNonconformance(
      tx,
      { ...fields, ...days({ dueOn, effectDueOn }), openedById: personId },
      now,
    ),
  );
  if (row?.jobId) {
    const body = { kind: row.kind, nonconformanceId: row.id, personId, reference: row.reference };
    await appendToLedger(tx, row.jobId, { kind: "nonconformance.opened", body, at: now });
  }
  return row;
}

async function refuseUndrawn(
  tx: FirmTransaction,
  { auditSampleId, jobId, kind }: Pick<NewNonconformance, "auditSampleId" | "jobId" | "kind">,
): Promise<void> {
  if (auditSampleId === undefined) return;
  const isDrawnFor = jobId !== undefined && (await isDrawn(tx, auditSampleId, jobId));
  if (!isDrawnFor) {
    throw invalid("/body/auditSampleId", "The job is not one of this sample.");
  }
  if (kind !== "audit") throw invalid("/body/kind", "A finding of a sample is of the kind audit.");
}

export async function followUp(
  tx: FirmTransaction,
  { id, version }: { id: string; version: number },
  { dueOn, effectDueOn, state: asked, ...change }: NonconformanceEdit,
  { personId, language, now }: Who,
) {
  const before = await findNonconformance(tx, id);
  if (!before) throw notFound("nonconformance");
  // What keeps it from doing more harm is what "contained" means.
  const state = asked ?? (before.state === "open" && change.containment ? "contained" : undefined);
  if (state === "closed") refuseUnfinished({ ...before, ...change }, language);
  const moves = state !== undefined && state !== before.state;
  const ended = moves ? { state, closedAt: state === "closed" ? now : null } : {};
  const edit = { ...change, ...days({ dueOn, effectDueOn }), ...ended };
  const after = await referringTo(() => editNonconformance(tx, id, version, edit));
  if (!after) throw editedMeanwhile();
  const changed = FOLLOWED.filter((name) => String(before[name]) !== String(after[name]));
  if (after.jobId && changed.length > 0) {
    const { reference } = after;
    const body = { changed, nonconformanceId: id, personId, reference, state: after.state };
    await appendToLedger(tx, after.jobId, { kind: "nonconformance.changed", body, at: now });
  }
  return after;
}

const FOLLOWED = [
  ...(["title", "containment", "cause", "correction"] as const),
  ...(["effectDueOn", "effectById", "dueOn", "ownerId", "state"] as const),
];

function refuseUnfinished(facts: Parameters<typeof missingToClose>[0], language: ShownLanguage) {
  const [missing] = missingToClose(facts);
  if (!missing) return;
  const key = missing === "cause" ? "nonconformance.needsCause" : "nonconformance.needsCheck";
  throw invalid(`/body/${missing}`, say(language, key));
}

type Days = Record<"dueOn" | "effectDueOn", string | null | undefined>;

function days(given: Days): Partial<Record<keyof Days, Date | null>> {
  const said = Object.entries(given).filter(([, text]) => text !== undefined);
  return Object.fromEntries(said.map(([name, text]) => [name, text ? new Date(text) : null]));
}

/** A reference to what the firm does not have is refused by the keys of the database. */
async function referringTo<Result>(write: () => Promise<Result>): Promise<Result> {
  try {
    return await write();
  } catch (error) {
    const isKey = error instanceof Error && "code" in error && error.code === "P2003";
    throw isKey ? unknownReference() : error;
  }
}

const unknownReference = () => invalid("/body", "It refers to something your firm does not have.");
