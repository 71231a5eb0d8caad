// A picture is what its bytes say, not what its sender calls it; what unpacking it takes is read
// off its own pieces first, and it is never unpacked beyond a bound.
import type { Readable } from "node:stream";
import { pipeline } from "node:stream/promises";
import { promisify } from "node:util";
import { inflate } from "node:zlib";
import sharp from "sharp";
import { isJpeg, jpegFacts } from "../../domain/pictures/jpeg-facts.ts";
import type { PictureFacts } from "../../domain/pictures/picture-facts.ts";
import { isPng, pngFacts } from "../../domain/pictures/png-facts.ts";
import { isWebp, webpFacts } from "../../domain/pictures/webp-facts.ts";
import { Problem } from "../../errors.ts";
import { Turns } from "../../web/turns.ts";

const PIXELS_MOST = 60_000_000;
/**
 * How any picture is opened, for the check as for what is shown: cameras write files that are whole
 * and not quite by the rules.
 */
export const OPENING = { limitInputPixels: PIXELS_MOST, failOn: "truncated" } as const;
const HELD_BYTES_MOST = 128 * 1024 * 1024;
/** Texts and colour profiles, unpacked, all together. */
const BESIDE_BYTES_MOST = 4 * 1024 * 1024;
const BROKEN_PIECE_BYTES = 1024 * 1024;
const EXTRAS_MOST = 2000;
/** An encoder's usual progressive script has ten scans (libjpeg, from memory). */
const PASSES_MOST = 64;
const MEDIA_TYPES = { jpeg: "image/jpeg", png: "image/png", webp: "image/webp" } as const;
const SIDE_PX_MOST = 2400;
const NOT_WHOLE = "The file is not a whole JPEG, PNG or WebP picture.";

/** What waits to be taken in is held in memory; what waits to be shown lies in its file. */
const sentence = "Many pictures are being opened already. Nothing was lost; try again soon.";
const takingIn = new Turns({ atOnce: 2, waitingMost: 16, sentence });
const showing = new Turns({ atOnce: 2, waitingMost: 200, sentence });

export interface Picture {
  mediaType: (typeof MEDIA_TYPES)[keyof typeof MEDIA_TYPES];
  widthPx: number;
  heightPx: number;
}

export type PictureReading = { ok: true; picture: Picture } | { ok: false; problem: string };

/**
 * Looks at the pieces, then decodes once in small, so that a truncated or mixed file is found out.
 */
export async function readPicture(bytes: Buffer): Promise<PictureReading> {
  const facts = factsOf(bytes);
  const problem = facts ? await tooMuch(facts) : NOT_WHOLE;
  if (!facts || problem) return { ok: false, problem: problem ?? NOT_WHOLE };
  const { format, widthPx, heightPx } = facts;
  if (!(await takingIn.take(() => isWhole(bytes, facts)))) return { ok: false, problem: NOT_WHOLE };
  return { ok: true, picture: { mediaType: MEDIA_TYPES[format], widthPx, heightPx } };
}

async function isWhole(bytes: Buffer, stated: PictureFacts): Promise<boolean> {
  const { format, widthPx, heightPx } = stated;
  try {
    const image = sharp(bytes, { ...OPENING, pages: 1 });
    const seen = await image.metadata();
    const isAsStated = seen.format === format && seen.width === widthPx && seen.height === heightPx;
    if (isAsStated) await image.resize(16, 16, { fit: "inside" }).raw().toBuffer();
    return isAsStated;
  } catch {
    return false;
  }
}

function factsOf(bytes: Buffer): PictureFacts | undefined {
  if (isJpeg(bytes)) return jpegFacts(bytes);
  if (isPng(bytes)) return pngFacts(bytes);
  return isWebp(bytes) ? webpFacts(bytes) : undefined;
}

async function tooMuch(facts: PictureFacts): Promise<string | undefined> {
  const { widthPx, heightPx, heldBytes, passes, extras } = facts;
  if (widthPx * heightPx > PIXELS_MOST) {
    return `The picture has ${widthPx} × ${heightPx} pixels; at most 60 million are taken.`;
  }
  if (heldBytes > HELD_BYTES_MOST) {
    return (
      `The picture has ${widthPx} × ${heightPx} pixels and takes too much memory to open. ` +
      "Send it as an ordinary JPEG."
    );
  }
  const isOdd = passes > PASSES_MOST || extras > EXTRAS_MOST || (await holdsMuch(facts));
  return isOdd
    ? "The picture holds too much beside what it shows. Save it anew and send that."
    : undefined;
}

const unpack = promisify(inflate);

/** Whether what is packed beside the picture is more than it may be; never unpacked further. */
async function holdsMuch({ packed }: PictureFacts): Promise<boolean> {
  let room = BESIDE_BYTES_MOST;
  for (const piece of packed) {
    try {
      room -= (await unpack(piece, { maxOutputLength: room })).length;
    } catch (error) {
      if ((error as { code?: unknown }).code === "ERR_BUFFER_TOO_LARGE") return true;
      // The decoder leaves it out, but only after it tried.
      room -= BROKEN_PIECE_BYTES;
    }
    if (room <= 0) return true;
  }
  return false;
}

const SMALL_SIDE_PX_MOST = 320;

/** A JPEG to show: upright, bounded, re-encoded, without location or any other metadata. */
export function publishedCopy(
  open: () => Promise<Readable>,
  size: "small" | "whole" = "whole",
): Promise<Buffer> {
  const sidePx = size === "small" ? SMALL_SIDE_PX_MOST : SIDE_PX_MOST;
  return showing.take(async () => {
    const file = await open();
    const copy = sharp(OPENING)
      .rotate()
      .resize(sidePx, sidePx, { fit: "inside", withoutEnlargement: true })
      .jpeg({ quality: size === "small" ? 75 : 85 });
    try {
      const [bytes] = await Promise.all([copy.toBuffer(), pipeline(file, copy)]);
      return bytes;
    } catch {
      const detail = "The photo's file is not whole any more. Restore it from a backup.";
      throw new Problem("evidence-damaged", detail);
    }
  });
}
