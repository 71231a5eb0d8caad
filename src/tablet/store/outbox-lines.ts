// Reading an outbox file back. A file may have been cut off or touched on its way: each line stands
// for itself, and what cannot be read is counted, not guessed.
import { sha256Hex } from "../../domain/evidence/sha256.ts";
import type { TabletOp } from "../../features/tablet/schemas.ts";
import type { HashedPhoto } from "./keep.ts";
import { fromBase64 } from "./outbox-file.ts";

export interface FilePhoto extends Omit<HashedPhoto, "blob"> {
  jobId: string;
}

export type OutboxLine = { op: TabletOp } | { photo: FilePhoto };

const ID = /^[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$/i;
const SHA256 = /^[0-9a-f]{64}$/;
const MEDIA_TYPES = ["image/jpeg", "image/png", "image/webp"];

export async function* readOutboxFile(file: Blob): AsyncGenerator<OutboxLine | undefined> {
  for await (const line of linesOf(file)) {
    if (line.trim() !== "") yield await readLine(line);
  }
}

async function* linesOf(file: Blob): AsyncGenerator<string> {
  const decoder = new TextDecoder();
  const reader = file.stream().getReader();
  let rest = "";
  for (let step = await reader.read(); !step.done; step = await reader.read()) {
    const lines = (rest + decoder.decode(step.value, { stream: true })).split("\n");
    rest = lines.pop() ?? "";
    yield* lines;
  }
  yield rest + decoder.decode();
}

async function readLine(line: string): Promise<OutboxLine | undefined> {
  let value: unknown;
  try {
    value = JSON.parse(line);
  } catch {
    return undefined;
  }
  if (!isRecord(value)) return undefined;
  if (isOp(value.op)) return { op: value.op };
  return isRecord(value.photo) ? readPhoto(value.photo) : undefined;
}

async function readPhoto(photo: Record<string, unknown>): Promise<OutboxLine | undefined> {
  const { sha256, mediaType, jobId, itemId, subject, base64 } = photo;
  const texts = [sha256, mediaType, jobId, itemId, subject, base64];
  if (!texts.every((text) => typeof text === "string")) return undefined;
  if (!MEDIA_TYPES.includes(String(mediaType)) || !ID.test(String(jobId))) return undefined;
  try {
    const bytes = fromBase64(String(base64));
    if ((await sha256Hex(bytes)) !== sha256) return undefined;
    return { photo: { ...photo, content: bytes.buffer } as unknown as FilePhoto };
  } catch {
    return undefined;
  }
}

/** As far as the store relies on it; the server reads the rest. */
function isOp(value: unknown): value is TabletOp {
  if (!isRecord(value)) return false;
  const { opId, deviceId, jobId, deviceSeq, prevHash, payload, photoSha256, wallClock } = value;
  return (
    [opId, deviceId, jobId].every((id) => typeof id === "string" && ID.test(id)) &&
    Number.isSafeInteger(deviceSeq) &&
    Number(deviceSeq) >= 1 &&
    SHA256.test(String(prevHash)) &&
    isRecord(payload) &&
    typeof wallClock === "string" &&
    Array.isArray(photoSha256)
  );
}

const isRecord = (value: unknown): value is Record<string, unknown> =>
  typeof value === "object" && value !== null && !Array.isArray(value);
