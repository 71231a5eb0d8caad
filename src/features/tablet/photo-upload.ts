// A photo that comes in pieces over connections that break: each time the sender asks how much is
// here and goes on from there. Whole and checked, it becomes a photo like any other.
import type { Readable } from "node:stream";
import type { Database } from "../../db/client.ts";
import { inFirm } from "../../db/scope.ts";
import { invalid, notFound, Problem } from "../../errors.ts";
import type { SignedIn } from "../../web/session.ts";
import type { FilesHome } from "../photos/files.ts";
import { receivePhoto } from "../photos/receive-photo.ts";
import { findPhoto, mayReceivePhoto } from "../photos/store.ts";
import { writeBody } from "./photo-upload-body.ts";
import {
  countUploads,
  dropUpload,
  flushedBytes,
  openUpload,
  readUpload,
  type UploadPlace,
} from "./photo-upload-folder.ts";
import { inTurn } from "./photo-upload-turns.ts";

/** Photos of one firm on their way at a time; each is at most as large as a photo may be. */
const UPLOADS_MOST = 200;

export interface UploadTarget {
  db: Database;
  home: FilesHome;
  session: SignedIn;
  jobId: string;
  sha256: string;
}

/** offset: bytes that are here, flushed. complete: the photo is here, checked and in the job. */
export interface UploadStanding {
  offset: number;
  complete: boolean;
}

export interface UploadPiece {
  offset: number;
  /** Of the whole photo. */
  lengthBytes: number;
  body: Readable;
  /** What the body says of its own length. */
  bodyBytes: number | undefined;
  itemId?: string;
  subject?: string;
  now: Date;
  stop(): void;
}

export async function uploadStanding(target: UploadTarget): Promise<UploadStanding> {
  return inTurn(
    keyOf(target),
    () => undefined,
    async () => (await findWhole(target)) ?? { offset: await flushed(target), complete: false },
  );
}

/** Takes a piece that begins where the upload ends; `taken` is false when it does not. */
export async function receivePiece(
  target: UploadTarget,
  piece: UploadPiece,
): Promise<UploadStanding & { taken: boolean }> {
  return inTurn(keyOf(target), piece.stop, async () => {
    const whole = await findWhole(target);
    if (whole) return { ...whole, taken: true };
    const offset = await flushed(target);
    if (piece.offset !== offset) return { offset, complete: false, taken: false };
    requireRoom(piece, offset + (piece.bodyBytes ?? 0));
    if (offset === 0) await requirePlace(target);
    const end = await append(target, piece);
    if (end < piece.lengthBytes) return { offset: end, complete: false, taken: true };
    return finish(target, piece);
  });
}

async function append(target: UploadTarget, piece: UploadPiece): Promise<number> {
  const file = await openUpload(placeOf(target));
  try {
    const { end, tooMuch } = await writeBody(file, piece.body, piece.offset, piece.lengthBytes);
    if (tooMuch) requireRoom(piece, end + 1);
    return end;
  } finally {
    await file.close();
  }
}

/** Uploads whose bytes were wrong once: a fault of the way, or of this server's disk. */
const wrongOnce = new Set<string>();
const WRONG_MOST = 1000;

async function finish(
  target: UploadTarget,
  piece: UploadPiece,
): Promise<UploadStanding & { taken: boolean }> {
  const { db, home, session, jobId, sha256 } = target;
  const { itemId, subject, now } = piece;
  const bytes = await readUpload(placeOf(target));
  try {
    const incoming = { jobId, sha256, bytes, itemId, subject };
    await receivePhoto(db, home, session, incoming, now);
  } catch (error) {
    if (!(error instanceof Problem) || !USELESS.has(error.code)) throw error;
    await dropUpload(placeOf(target));
    const again = error.code === "invalid-input" && !wrongOnce.has(keyOf(target));
    if (wrongOnce.size >= WRONG_MOST) wrongOnce.clear();
    wrongOnce.add(keyOf(target));
    if (again) return { offset: 0, complete: false, taken: false };
    throw error;
  }
  await dropUpload(placeOf(target));
  return { offset: bytes.length, complete: true, taken: true };
}

/** Refusals after which the bytes here are of no use: another hash, no picture. */
const USELESS: ReadonlySet<string> = new Set(["invalid-input", "unsupported-type"]);

/** The photo that the job has already; refuses where it may not have it. */
async function findWhole(target: UploadTarget): Promise<UploadStanding | undefined> {
  const { db, session, jobId, sha256 } = target;
  return inFirm(db, session.firmId, async (tx) => {
    const photo = await findPhoto(tx, jobId, sha256);
    if (photo) return { offset: photo.bytes, complete: true };
    const may = await mayReceivePhoto(tx, jobId, sha256);
    if (may === "no-job") throw notFound("job");
    if (may === "closed") {
      const sentence = "The job is not open and nothing kept for it names this photo.";
      throw new Problem("job-not-open", sentence);
    }
    return undefined;
  });
}

function requireRoom({ lengthBytes }: UploadPiece, end: number): void {
  if (end <= lengthBytes) return;
  throw invalid("/headers/upload-length", "is less than what was sent; send the whole length");
}

async function requirePlace({ home, session }: UploadTarget): Promise<void> {
  if ((await countUploads(home.dataFolder, session.firmId)) < UPLOADS_MOST) return;
  const sentence = `${UPLOADS_MOST} photos of your firm are on their way; let those arrive first.`;
  throw new Problem("busy", sentence, { retryAfterS: 60 });
}

const placeOf = ({ home, session, jobId, sha256 }: UploadTarget): UploadPlace => ({
  dataFolder: home.dataFolder,
  firmId: session.firmId,
  jobId,
  sha256,
});

const flushed = (target: UploadTarget): Promise<number> => flushedBytes(placeOf(target));

const keyOf = ({ session, jobId, sha256 }: UploadTarget): string =>
  `${session.firmId} ${jobId.toLowerCase()} ${sha256}`;
