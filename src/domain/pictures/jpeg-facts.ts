// Requirement: a JPEG is whole from SOI to EOI, and its frame header says what unpacking it takes.
// Source: ITU-T T.81, annex B (marker segments) and annex G (progressive mode).
import { type PictureFacts, viewOf } from "./picture-facts.ts";

const SOS = 0xda;
const EOI = 0xd9;
/** Frame headers; DHT, JPG and DAC stand among their numbers. */
const isFrame = (marker: number): boolean =>
  marker >= 0xc0 && marker <= 0xcf && ![0xc4, 0xc8, 0xcc].includes(marker);
/** Within packed data: a stuffed 0xFF, TEM, or a restart. */
const standsAlone = (marker: number): boolean =>
  marker <= 0x01 || (marker >= 0xd0 && marker <= 0xd7);

/** Whether the bytes begin as a JPEG does. */
export const isJpeg = (bytes: Uint8Array): boolean =>
  bytes[0] === 0xff && bytes[1] === 0xd8 && bytes[2] === 0xff;

/** The facts of a JPEG; undefined where it is not whole. What stands behind EOI is let be. */
export function jpegFacts(bytes: Uint8Array): PictureFacts | undefined {
  const view = viewOf(bytes);
  let facts: PictureFacts | undefined;
  let [coefficientBytes, scanBytesLeast, scansAt] = [0, 0, 0];
  let [passes, extras] = [0, 0];
  for (let at = bytes.indexOf(0xff, 2); at >= 0; at = bytes.indexOf(0xff, at)) {
    while (bytes[at] === 0xff) at += 1;
    const marker = bytes[at] ?? 0;
    at += 1;
    if (standsAlone(marker)) continue;
    if (marker === EOI) {
      if (!facts || passes === 0 || at - scansAt < scanBytesLeast) return undefined;
      const isHeld = passes > 1 || facts.heldBytes > 0;
      return { ...facts, passes, extras, heldBytes: isHeld ? coefficientBytes : 0 };
    }
    if (at + 2 > bytes.length) return undefined;
    const segment = bytes.subarray(at + 2, at + view.getUint16(at));
    if (isFrame(marker)) {
      if (facts) return undefined;
      const read = frameFacts(segment, marker);
      if (!read) return undefined;
      ({ facts, coefficientBytes, scanBytesLeast } = read);
    } else if (marker === SOS) {
      if (passes === 0) scansAt = at;
      passes += 1;
    } else extras += 1;
    at += Math.max(2, view.getUint16(at));
  }
  return undefined;
}

function frameFacts(segment: Uint8Array, marker: number) {
  const count = segment[5] ?? 0;
  if (segment.length < 6 + 3 * count || count === 0) return undefined;
  const view = viewOf(segment);
  const [heightPx, widthPx] = [view.getUint16(1), view.getUint16(3)];
  if (widthPx === 0 || heightPx === 0) return undefined;
  const factors = Array.from({ length: count }, (_, at) => segment[7 + 3 * at] ?? 0);
  const areas = factors.map((factor) => (factor >> 4) * (factor & 15));
  const across = Math.max(...factors.map((factor) => factor >> 4));
  const down = Math.max(...factors.map((factor) => factor & 15));
  if (across * down === 0) return undefined;
  const samples = areas.reduce((sum, area) => sum + area, 0) / (across * down);
  // Two bytes a coefficient (libjpeg's JCOEF).
  const coefficientBytes = Math.ceil(widthPx * heightPx * samples * 2);
  // Of 64 samples each, with at least a bit for its mean and one for its end (annex F.1.2).
  const blocks = (widthPx * heightPx * samples) / 64;
  // The baseline and sequential modes come row by row.
  const isSequential = marker === 0xc0 || marker === 0xc1;
  const heldBytes = isSequential ? 0 : coefficientBytes;
  const scanBytesLeast = isSequential ? Math.floor(blocks / 4) : 0;
  const sizes = { widthPx, heightPx, heldBytes, packed: [], passes: 0, extras: 0 };
  return { facts: { format: "jpeg" as const, ...sizes }, coefficientBytes, scanBytesLeast };
}
