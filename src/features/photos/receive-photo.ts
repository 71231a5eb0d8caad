import { createHash } from "node:crypto";
import type { Database } from "../../db/client.ts";
import { inFirm } from "../../db/scope.ts";
import { invalid, notFound, Problem } from "../../errors.ts";
import type { SignedIn } from "../../web/session.ts";
import { appendToLedger } from "../ledger/store.ts";
import { type FilesHome, fileStorage } from "./files.ts";
import { readPicture } from "./picture.ts";
import { addPhoto, findPhoto, mayReceivePhoto } from "./store.ts";

export interface IncomingPhoto {
  jobId: string;
  sha256: string;
  bytes: Buffer;
  itemId?: string;
  subject?: string;
}

/**
 * Keeps the file, then the row and the ledger entry in one transaction; the same photo again is
 * fine.
 */
export async function receivePhoto(
  db: Database,
  home: FilesHome,
  session: Pick<SignedIn, "firmId" | "personId">,
  incoming: IncomingPhoto,
  now: Date,
) {
  const { jobId, sha256, bytes } = incoming;
  if (createHash("sha256").update(bytes).digest("hex") !== sha256) {
    throw invalid(
      "/params/sha256",
      "The bytes received do not have this SHA-256; send the photo again.",
    );
  }
  const reading = await readPicture(bytes);
  if (!reading.ok) throw new Problem("unsupported-type", reading.problem);
  await inFirm(db, session.firmId, (tx) => requireWelcome(tx, jobId, sha256));
  await fileStorage(home).keep({ firmId: session.firmId, sha256 }, bytes);
  return inFirm(db, session.firmId, async (tx) => {
    await requireWelcome(tx, jobId, sha256);
    const added = await addPhoto(tx, {
      ...reading.picture,
      jobId,
      sha256,
      sha512: createHash("sha512").update(bytes).digest("hex"),
      bytes: bytes.length,
      itemId: incoming.itemId ?? null,
      subject: incoming.subject ?? null,
      personId: session.personId,
    });
    if (added) {
      const body = { bytes: bytes.length, mediaType: reading.picture.mediaType, sha256 };
      await appendToLedger(tx, jobId, { kind: "photo.received", body, at: now });
    }
    const photo = await findPhoto(tx, jobId, sha256);
    if (!photo) throw new Error("a photo just added is not there");
    return { photo, added };
  });
}

async function requireWelcome(
  tx: Parameters<typeof mayReceivePhoto>[0],
  jobId: string,
  sha256: string,
): Promise<void> {
  const may = await mayReceivePhoto(tx, jobId, sha256);
  if (may === "no-job") throw notFound("job");
  if (may === "closed") {
    throw new Problem(
      "job-not-open",
      "The job is not open and nothing kept for it names this photo.",
    );
  }
}
