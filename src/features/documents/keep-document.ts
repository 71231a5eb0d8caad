import { createHash } from "node:crypto";
import type { Database } from "../../db/client.ts";
import { type FirmTransaction, inFirm } from "../../db/scope.ts";
import { invalid, notFound, Problem } from "../../errors.ts";
import type { SignedIn } from "../../web/session.ts";
import { lockJob } from "../jobs/store.ts";
import { appendToLedger } from "../ledger/store.ts";
import { type FilesHome, fileStorage } from "../photos/files.ts";
import { readDocumentType } from "./document-type.ts";
import { DOCUMENT_BYTES_MOST } from "./schemas.ts";
import { countDocuments, findDocument, keepDocument, markRemoved } from "./store.ts";

const DOCUMENTS_MOST = 200;

export interface IncomingDocument {
  jobId: string;
  name: string;
  bytes: Buffer;
  /** What the sender says its hash is. */
  sha256?: string;
}

/** The file first, under its hash beside the photos; then row and ledger entry together. */
export async function receiveDocument(
  db: Database,
  home: FilesHome,
  { firmId, personId }: Pick<SignedIn, "firmId" | "personId">,
  { jobId, name, bytes, sha256: said }: IncomingDocument,
  now: Date,
) {
  if (bytes.length > DOCUMENT_BYTES_MOST) {
    throw new Problem("body-too-large", "A document has at most 20 MB.");
  }
  const sha256 = createHash("sha256").update(bytes).digest("hex");
  if (said !== undefined && said !== sha256) {
    const detail = "The bytes received do not have this SHA-256; send the document again.";
    throw invalid("/params/sha256", detail);
  }
  const type = await readDocumentType(bytes);
  if (!type.ok) throw new Problem("unsupported-type", type.problem);
  await inFirm(db, firmId, (tx) => requireRoom(tx, jobId));
  await fileStorage(home).keep({ firmId, sha256 }, bytes);
  return inFirm(db, firmId, async (tx) => {
    await requireRoom(tx, jobId);
    const { mediaType } = type;
    const fields = { jobId, sha256, mediaType, bytes: bytes.length, name, personId };
    const kept = await keepDocument(tx, fields, now);
    // A name may be a person's; the hash is what the record is about.
    const body = { bytes: bytes.length, mediaType, personId, sha256 };
    if (kept !== "there") {
      await appendToLedger(tx, jobId, { kind: "document.received", body, at: now });
    }
    const document = await findDocument(tx, jobId, sha256);
    if (!document) throw new Error("a document just kept is not there");
    return { document, added: kept !== "there" };
  });
}

async function requireRoom(tx: FirmTransaction, jobId: string): Promise<void> {
  const job = await lockJob(tx, jobId);
  if (!job) throw notFound("job");
  if (job.state === "cancelled")
    throw new Problem("job-not-open", `${job.reference} is cancelled.`);
  if ((await countDocuments(tx, jobId)) < DOCUMENTS_MOST) return;
  throw new Problem("conflict", `A job takes at most ${DOCUMENTS_MOST} documents.`);
}

/** Off the list; the file stays under its hash, since the ledger names it. */
export async function removeDocument(
  tx: FirmTransaction,
  { jobId, sha256 }: { jobId: string; sha256: string },
  personId: string,
  now: Date,
): Promise<void> {
  if (!(await lockJob(tx, jobId))) throw notFound("job");
  const row = await findDocument(tx, jobId, sha256);
  if (!row || !(await markRemoved(tx, row.id, personId, now))) throw notFound("document");
  const body = { personId, sha256 };
  await appendToLedger(tx, jobId, { kind: "document.removed", body, at: now });
}
