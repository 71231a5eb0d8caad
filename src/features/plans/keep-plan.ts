import { createHash } from "node:crypto";
import type { FirmTransaction } from "../../db/scope.ts";
import { canonicalize } from "../../domain/evidence/canonical-json.ts";
import { checkPlan } from "../../domain/plan/check.ts";
import { notFound, Problem } from "../../errors.ts";
import { editedMeanwhile } from "../../web/etag.ts";
import { emptyDocument } from "./schemas.ts";
import {
  addDraft,
  addPlan,
  editPlan,
  findPlan,
  findPlanVersion,
  findVersionByNumber,
  lockPlan,
  markPublished,
  type PlanRow,
  type PlanVersionRow,
  putDocument,
} from "./store.ts";

type Document = Record<string, unknown>;

export async function writePlan(
  tx: FirmTransaction,
  fields: { code: string; title: string; document?: Document },
): Promise<PlanRow> {
  const { code, title, document = emptyDocument(title) } = fields;
  const planId = await addPlan(tx, { code, title });
  if (planId === undefined) {
    throw new Problem("conflict", `There is a plan ${code} already. Choose another code.`);
  }
  await addDraft(tx, { planId, number: 1, document, sha256: canonicalSha256(document) });
  return readPlan(tx, planId);
}

export async function renamePlan(
  tx: FirmTransaction,
  id: string,
  version: number,
  change: { title?: string },
): Promise<PlanRow> {
  await readPlan(tx, id);
  if (!(await editPlan(tx, id, version, change))) throw editedMeanwhile();
  return readPlan(tx, id);
}

/** A new draft: the given document, or what the latest version says. */
export async function writeVersion(
  tx: FirmTransaction,
  planId: string,
  given: Document | undefined,
): Promise<PlanVersionRow> {
  const plan = await lockPlan(tx, planId);
  const [latest] = plan?.versions ?? [];
  if (!plan || !latest) throw notFound("plan");
  if (latest.state === "draft") {
    const { number } = latest;
    const detail = `Version ${number} of ${plan.code} is a draft. Change or publish that one.`;
    throw new Problem("conflict", detail, { number });
  }
  const document = given ?? documentOf(await findPlanVersion(tx, latest.id));
  const sha256 = canonicalSha256(document);
  return addDraft(tx, { planId, number: latest.number + 1, document, sha256 });
}

export async function replaceDocument(
  tx: FirmTransaction,
  place: { planId: string; number: number },
  version: number,
  document: Document,
): Promise<PlanVersionRow> {
  const before = await readDraft(tx, place);
  const content = {
    document,
    previousDocument: documentOf(before),
    sha256: canonicalSha256(document),
  };
  const row = await putDocument(tx, before.id, version, content);
  if (!row) throw editedMeanwhile();
  return row;
}

/** Publishes what is stored, if it passes its check; from then on nobody can change it. */
export async function publishVersion(
  tx: FirmTransaction,
  place: { planId: string; number: number },
  version: number | undefined,
  publishedById: string,
  now: Date,
): Promise<PlanVersionRow> {
  const draft = await readDraft(tx, place);
  const checked = checkPlan(draft.document);
  if (!checked.ok) {
    const { problems } = checked;
    const count = problems.length === 1 ? "1 fault" : `${problems.length} faults`;
    throw new Problem("plan-invalid", `The document has ${count}: ${problems[0]?.sentence}`, {
      errors: problems.map(({ pointer, code, sentence }) => ({ pointer, code, detail: sentence })),
    });
  }
  const sha256 = canonicalSha256(documentOf(draft));
  const publication = { publishedAt: now, publishedById, sha256 };
  const row = await markPublished(tx, draft.id, version ?? draft.version, publication);
  if (!row) throw editedMeanwhile();
  return row;
}

export async function readPlan(tx: FirmTransaction, id: string): Promise<PlanRow> {
  const row = await findPlan(tx, id);
  if (!row) throw notFound("plan");
  return row;
}

export async function readVersion(
  tx: FirmTransaction,
  { planId, number }: { planId: string; number: number },
): Promise<PlanVersionRow> {
  const row = await findVersionByNumber(tx, planId, number);
  if (row) return row;
  throw new Problem("not-found", `Your firm has no such plan, or the plan no version ${number}.`);
}

async function readDraft(
  tx: FirmTransaction,
  place: { planId: string; number: number },
): Promise<PlanVersionRow> {
  const row = await readVersion(tx, place);
  if (row.state === "draft") return row;
  throw new Problem(
    "conflict",
    `Version ${place.number} is published and stays as it is. Start a new version.`,
  );
}

export const documentOf = (row: { document: unknown } | null): Document =>
  (row?.document ?? {}) as Document;

const canonicalSha256 = (document: Document): string =>
  createHash("sha256").update(canonicalize(document)).digest("hex");
