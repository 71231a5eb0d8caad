// The last resort: everything that only this tablet has, as a file that a memory stick or a mail
// can carry. One JSON value a line, operations first and in order, then photos with their bytes.
import type { StoreDatabase } from "./layout.ts";
import { readOps } from "./reading.ts";

export async function writeOutboxFile(db: StoreDatabase): Promise<Blob> {
  const lines: Blob[] = [];
  for (const { op, state } of await readOps(db)) {
    if (state === "waiting") lines.push(lineOf({ op }));
  }
  // One photo in memory at a time; a browser may move a Blob's parts to the disk.
  for (const photo of await db.getAllFromIndex("photos", "state", "waiting")) {
    const content = await db.get("photoBytes", photo.sha256);
    if (!content) continue;
    const { sha256, mediaType, jobId, itemId, subject } = photo;
    const base64 = toBase64(new Uint8Array(content));
    lines.push(lineOf({ photo: { sha256, mediaType, jobId, itemId, subject, base64 } }));
  }
  return new Blob(lines, { type: "application/jsonl" });
}

const lineOf = (value: object): Blob => new Blob([JSON.stringify(value), "\n"]);

/** In steps: a call takes only so many arguments. A multiple of 3, so that none is padded. */
const STEP_BYTES = 3 * 8192;

export function toBase64(bytes: Uint8Array): string {
  const parts: string[] = [];
  for (let from = 0; from < bytes.length; from += STEP_BYTES) {
    parts.push(btoa(String.fromCharCode(...bytes.subarray(from, from + STEP_BYTES))));
  }
  return parts.join("");
}

export const fromBase64 = (text: string): Uint8Array<ArrayBuffer> =>
  Uint8Array.from(atob(text), (character) => character.charCodeAt(0));
