// Requirement: a WebP is as long as it says, and its first chunk says what unpacking it takes.
// Sources: RFC 9649 (the container and VP8L), RFC 6386, 9.1 (the frame header of VP8).
import { type PictureFacts, signsAt, viewOf } from "./picture-facts.ts";

const HEAD_BYTES = 30;
const SAMPLES = 4;

/** Whether the bytes begin as a WebP does. */
export const isWebp = (bytes: Uint8Array): boolean =>
  signsAt(bytes, 0) === "RIFF" && signsAt(bytes, 8) === "WEBP";

/** The facts of a WebP; undefined where it is not whole. What stands behind it is let be. */
export function webpFacts(bytes: Uint8Array): PictureFacts | undefined {
  if (bytes.length < HEAD_BYTES) return undefined;
  const view = viewOf(bytes);
  const end = 8 + view.getUint32(4, true);
  if (end > bytes.length || end < HEAD_BYTES) return undefined;
  const size = sizeAt(view, signsAt(bytes, 12));
  const extras = size && extrasWithin(view, bytes, end);
  if (!size || extras === undefined) return undefined;
  const [widthPx, heightPx] = size;
  // Its decoder holds the picture whole.
  const heldBytes = widthPx * heightPx * SAMPLES;
  return { format: "webp", widthPx, heightPx, heldBytes, packed: [], passes: 1, extras };
}

function sizeAt(view: DataView, chunk: string): [number, number] | undefined {
  const three = (at: number) => view.getUint16(at, true) + view.getUint8(at + 2) * 65_536;
  if (chunk === "VP8X") return [three(24) + 1, three(27) + 1];
  if (chunk === "VP8L") {
    const bits = view.getUint32(21, true);
    return [(bits & 0x3fff) + 1, ((bits >>> 14) & 0x3fff) + 1];
  }
  if (chunk !== "VP8 ") return undefined;
  const size: [number, number] = [
    view.getUint16(26, true) & 0x3fff,
    view.getUint16(28, true) & 0x3fff,
  ];
  return size[0] > 0 && size[1] > 0 ? size : undefined;
}

/** Chunks beside the first; undefined where one reaches beyond the end. */
function extrasWithin(view: DataView, bytes: Uint8Array, end: number): number | undefined {
  let extras = -1;
  let at = 12;
  while (at + 8 <= end) {
    const length = view.getUint32(at + 4, true);
    if (at + 8 + length > bytes.length) return undefined;
    at += 8 + length + (length % 2);
    extras += 1;
  }
  return extras;
}
