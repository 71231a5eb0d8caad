// Requirement: photos never hold up readings, and a photo goes on where the last connection broke.
// Header names follow the IETF draft "Resumable Uploads for HTTP" (from memory).
import type { KeptPhoto } from "../contract.ts";
import { phrase } from "../language/spoken.ts";
import { type Halt, haltOf, stranger, stuck } from "./halt.ts";
import type { Answered, Reply } from "./reply.ts";
import type { Round } from "./send-ops.ts";

export const PIECE_BYTES = 256 * 1024;
/** So often the server may say that it stands elsewhere; then the photo waits for a new round. */
const CORRECTIONS_MOST = 5;

/** @param first sends what was kept meanwhile; asked before each piece */
export async function sendPhotos(
  round: Round,
  first: () => Promise<Halt | undefined>,
): Promise<Halt | undefined> {
  for (const photo of await round.store.waitingPhotos()) {
    const halt = await sendPhoto(round, photo, first);
    if (halt) return halt;
  }
  return undefined;
}

interface Standing {
  offset: number;
  complete: boolean;
}

type Step = { standing: Standing; serverAt: string | undefined } | { halt: Halt } | { over: true };

async function sendPhoto(
  round: Round,
  photo: KeptPhoto,
  first: () => Promise<Halt | undefined>,
): Promise<Halt | undefined> {
  const content = await round.store.photoBytes(photo.sha256);
  if (!content) return refuse(round, photo, phrase("tabletSync.pictureGone"));
  let step = await ask(round, photo);
  for (let corrections = 0; corrections <= CORRECTIONS_MOST; ) {
    if ("over" in step) return undefined;
    if ("halt" in step) return step.halt;
    const { offset, complete } = step.standing;
    const progress = { sentBytes: offset, ...(complete ? { state: "sent" as const } : {}) };
    await round.store.notePhoto(photo, progress, { at: round.at(), serverAt: step.serverAt });
    if (complete) return undefined;
    const halt = await first();
    if (halt) return halt;
    step = await sendPiece(round, photo, content, offset);
    const isFurther =
      "standing" in step && (step.standing.offset > offset || step.standing.complete);
    if (!isFurther) corrections += 1;
  }
  return stuck();
}

const addressOf = ({ jobId, sha256 }: KeptPhoto): string =>
  `/api/v1/jobs/${jobId}/photo-uploads/${sha256}`;

async function ask(round: Round, photo: KeptPhoto): Promise<Step> {
  const reply = await round.caller.call({ method: "HEAD", path: addressOf(photo) });
  // A refusal of HEAD has no sentence; the piece is refused with one.
  if (reply.kind === "refused") return { standing: { offset: 0, complete: false }, serverAt: "" };
  return stepOf(round, photo, reply);
}

async function sendPiece(
  round: Round,
  photo: KeptPhoto,
  content: ArrayBuffer,
  offset: number,
): Promise<Step> {
  const place = new URLSearchParams({ itemId: photo.itemId, subject: photo.subject });
  const reply = await round.caller.call({
    method: "PATCH",
    path: `${addressOf(photo)}?${place}`,
    headers: {
      "content-type": "application/partial-upload",
      "upload-offset": String(offset),
      "upload-length": String(content.byteLength),
    },
    bytes: content.slice(offset, offset + PIECE_BYTES),
  });
  return stepOf(round, photo, reply);
}

async function stepOf(round: Round, photo: KeptPhoto, reply: Reply): Promise<Step> {
  if (reply.kind === "answered") {
    const standing = standingOf(reply, photo);
    return standing ? { standing, serverAt: reply.serverAt } : { halt: stranger() };
  }
  if (reply.kind === "too-large") {
    await refuse(round, photo, phrase("tabletSync.photoTooLarge"));
    return { over: true };
  }
  if (reply.kind !== "refused") return { halt: haltOf(reply) };
  const elsewhere = reply.status === 409 ? standingOf(reply, photo) : undefined;
  if (elsewhere) return { standing: elsewhere, serverAt: reply.serverAt };
  await refuse(round, photo, reply.sentence);
  return { over: true };
}

function standingOf({ headers }: Answered, { bytes }: KeptPhoto): Standing | undefined {
  const offset = headers.get("upload-offset") ?? "";
  if (!/^\d{1,9}$/.test(offset)) return undefined;
  const complete = headers.get("upload-complete") === "?1";
  return Number(offset) <= bytes || complete ? { offset: Number(offset), complete } : undefined;
}

async function refuse(round: Round, photo: KeptPhoto, problem: string): Promise<undefined> {
  await round.store.notePhoto(photo, { state: "refused", problem });
}
