// An auditor who looks at the record of a job is on that job's ledger, once a day: who relied on
// the record, and when, belongs to it. Nothing is shown that could not be kept.
import type { FastifyRequest } from "fastify";
import { inFirm } from "../../db/scope.ts";
import type { App, Context } from "../../web/feature.ts";
import { signedIn } from "../../web/session.ts";
import { appendToLedger, lockLedger, viewIsKept } from "../ledger/store.ts";

/** Operations that show what a job's record states. */
const SHOWS_RECORD: ReadonlySet<string> = new Set([
  "readJob",
  "jobPage",
  "jobReadingsPage",
  "jobHistoryPage",
  "jobPhotosPage",
  "jobPhotoPage",
  "listAnswers",
  "evaluateJob",
  "readCloseOut",
  "listConcessions",
  "listDifferences",
  "listJobSnags",
  "listPhotos",
  "readPhoto",
  "listDocuments",
  "readDocument",
  "listMessages",
  "readLedger",
  "readCommissioningRecord",
  "readHandoverPack",
]);

export function keepViewsByAuditors(app: App, { db, now }: Pick<Context, "db" | "now">): void {
  app.addHook("onSend", async (request, reply, payload) => {
    const jobId = viewedJob(request);
    if (jobId !== undefined && reply.statusCode === 200) {
      const { firmId, personId } = signedIn(request);
      await keepView({ db, now }, { firmId, personId, jobId });
    }
    return payload;
  });
}

function viewedJob(request: FastifyRequest): string | undefined {
  const operation = request.routeOptions.schema?.operationId ?? "";
  // Nobody is signed in where the reply only leads to the sign-in page.
  if (!SHOWS_RECORD.has(operation) || !request.session?.roles.includes("auditor")) return undefined;
  return (request.params as { id?: string }).id;
}

interface View {
  firmId: string;
  personId: string;
  jobId: string;
}

async function keepView(
  { db, now }: Pick<Context, "db" | "now">,
  { firmId, personId, jobId }: View,
): Promise<void> {
  const at = now();
  const day = at.toISOString().slice(0, 10);
  await inFirm(db, firmId, async (tx) => {
    if (await viewIsKept(tx, jobId, personId, day)) return;
    // Under the lock once more: two pictures of one page come at the same time.
    if (!(await lockLedger(tx, jobId)) || (await viewIsKept(tx, jobId, personId, day))) return;
    await appendToLedger(tx, jobId, { kind: "record.viewed", body: { personId }, at });
  });
}
