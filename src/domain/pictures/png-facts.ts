// Requirement: a PNG is whole from its signature to IEND, and says by its header what unpacking it
// takes. Source: PNG, third edition (W3C), sections 5 (datastream structure) and 11 (chunks).
import { type PictureFacts, signsAt, viewOf } from "./picture-facts.ts";

const SIGNATURE = [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a] as const;
const HEADER_BYTES = 13;
/** Samples of a pixel once unpacked, by colour type; a palette's may each have an opacity. */
const SAMPLES = new Map([
  [0, 2],
  [2, 4],
  [3, 4],
  [4, 2],
  [6, 4],
]);

/** Whether the bytes begin as a PNG does. */
export const isPng = (bytes: Uint8Array): boolean =>
  SIGNATURE.every((byte, at) => bytes[at] === byte);

/** The facts of a PNG; undefined where it is not whole. What stands behind IEND is let be. */
export function pngFacts(bytes: Uint8Array): PictureFacts | undefined {
  const facts = headerFacts(bytes);
  if (!facts) return undefined;
  const view = viewOf(bytes);
  let hasData = false;
  for (let at: number = SIGNATURE.length; at + 12 <= bytes.length; ) {
    const length = view.getUint32(at);
    const name = signsAt(bytes, at + 4);
    const data = bytes.subarray(at + 8, at + 8 + length);
    at += 12 + length;
    if (at > bytes.length) return undefined;
    if (name === "IEND") return hasData ? facts : undefined;
    if (name === "IDAT") hasData = true;
    else facts.extras += 1;
    const packed = packedIn(name, data);
    if (packed) facts.packed.push(packed);
  }
  return undefined;
}

function headerFacts(bytes: Uint8Array): PictureFacts | undefined {
  if (bytes.length < SIGNATURE.length + 12 + HEADER_BYTES) return undefined;
  const view = viewOf(bytes);
  if (view.getUint32(8) !== HEADER_BYTES || signsAt(bytes, 12) !== "IHDR") return undefined;
  const [widthPx, heightPx] = [view.getUint32(16), view.getUint32(20)];
  const [depth, colour] = [view.getUint8(24), view.getUint8(25)];
  const samples = SAMPLES.get(colour);
  if (widthPx === 0 || heightPx === 0 || samples === undefined) return undefined;
  // Held whole where it is interlaced, and where it is turned before it is shown.
  const heldBytes = widthPx * heightPx * samples * (depth > 8 ? 2 : 1);
  return { format: "png", widthPx, heightPx, heldBytes, packed: [], passes: 1, extras: 0 };
}

/** Packed texts and profiles: behind a name and a sign for the method (PNG 11.3). */
function packedIn(name: string, data: Uint8Array): Uint8Array | undefined {
  if (name !== "zTXt" && name !== "iCCP" && name !== "iTXt") return undefined;
  const nameEnd = data.indexOf(0);
  if (nameEnd < 0) return undefined;
  if (name !== "iTXt") return data.subarray(nameEnd + 2);
  if (data[nameEnd + 1] !== 1) return undefined;
  const languageEnd = data.indexOf(0, nameEnd + 3);
  const textBegins = languageEnd < 0 ? -1 : data.indexOf(0, languageEnd + 1);
  return textBegins < 0 ? undefined : data.subarray(textBegins + 1);
}
