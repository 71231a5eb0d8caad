// The last resort of a tablet that cannot send: its outbox as a file, taken in line by line. Each
// operation goes the same way as one that was sent, so a file may come twice, or after its tablet.
import { Problem } from "../../errors.ts";
import type { FilesHome } from "../photos/files.ts";
import { receivePhoto } from "../photos/receive-photo.ts";
import { readIncoming } from "./ops-incoming.ts";
import { linesOf } from "./outbox-lines.ts";
import {
  OUTBOX_BYTES_MOST,
  OUTBOX_LINE_BYTES_MOST,
  OutboxPhoto,
  type OutboxSummary,
} from "./outbox-schemas.ts";
import { TabletOp } from "./schemas.ts";
import { type Receiver, takeOp } from "./take-op.ts";

export interface OutboxReceiver extends Receiver {
  home: FilesHome;
}

const NOTES_MOST = 100;
const LIMITS = { bytesMost: OUTBOX_BYTES_MOST, lineBytesMost: OUTBOX_LINE_BYTES_MOST };

export async function receiveOutbox(
  receiver: OutboxReceiver,
  stream: AsyncIterable<Buffer>,
): Promise<OutboxSummary> {
  const summary: OutboxSummary = {
    lines: 0,
    ops: { stored: 0, held: 0, repeated: 0, early: 0, refused: 0 },
    photos: { added: 0, repeated: 0, refused: 0 },
    unreadable: 0,
    notes: [],
  };
  for await (const line of linesOf(stream, LIMITS)) {
    summary.lines += 1;
    if (line.length === 0) continue;
    const sentence = await receiveLine(receiver, line, summary);
    if (sentence !== undefined && summary.notes.length < NOTES_MOST) {
      summary.notes.push({ line: summary.lines, sentence });
    }
  }
  return summary;
}

/** Counts what the line was; says in a sentence what did not simply go in. */
async function receiveLine(
  receiver: OutboxReceiver,
  line: Buffer,
  summary: OutboxSummary,
): Promise<string | undefined> {
  const parsed = parseLine(line);
  if ("op" in parsed) return receiveOp(receiver, parsed.op, summary);
  if ("photo" in parsed) return receivePicture(receiver, parsed.photo, summary);
  summary.unreadable += 1;
  return "This is neither an operation nor a photo of an outbox.";
}

function parseLine(line: Buffer): object {
  try {
    const value: unknown = JSON.parse(new TextDecoder("utf-8", { fatal: true }).decode(line));
    return typeof value === "object" && value !== null ? value : {};
  } catch {
    return {};
  }
}

async function receiveOp(
  receiver: OutboxReceiver,
  asSent: unknown,
  summary: OutboxSummary,
): Promise<string | undefined> {
  const read = TabletOp.safeParse(asSent);
  if (!read.success) {
    summary.unreadable += 1;
    const [issue] = read.error.issues;
    return `The operation cannot be read: /${issue?.path.join("/")} ${issue?.message}`;
  }
  const { result } = await takeOp(receiver, readIncoming(read.data, asSent));
  summary.ops[result.repeated ? "repeated" : result.outcome] += 1;
  if (result.repeated || result.outcome === "stored") return undefined;
  if (result.outcome === "early") {
    return `Operation ${result.deviceSeq} of its tablet came early: one before it is missing.`;
  }
  return `Operation ${result.deviceSeq} of its tablet is ${result.outcome}: ${result.sentence}`;
}

async function receivePicture(
  receiver: OutboxReceiver,
  asSent: unknown,
  summary: OutboxSummary,
): Promise<string | undefined> {
  const read = OutboxPhoto.safeParse(asSent);
  if (!read.success) {
    summary.unreadable += 1;
    const [issue] = read.error.issues;
    return `The photo cannot be read: /${issue?.path.join("/")} ${issue?.message}`;
  }
  const { base64, mediaType: _told, ...photo } = read.data;
  const incoming = { ...photo, bytes: Buffer.from(base64, "base64") };
  const { db, home } = receiver;
  try {
    const { added } = await receivePhoto(db, home, receiver, incoming, receiver.now());
    summary.photos[added ? "added" : "repeated"] += 1;
    return undefined;
  } catch (error) {
    if (!(error instanceof Problem) || error.status >= 500) throw error;
    summary.photos.refused += 1;
    return `Photo ${photo.sha256.slice(0, 12)}… is refused: ${error.message}`;
  }
}
