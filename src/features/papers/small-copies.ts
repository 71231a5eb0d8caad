// Small copies of a job's photos for its papers: upright, re-encoded, without location or any
// other metadata, the same bytes each time.
import type { Readable } from "node:stream";
import { pipeline } from "node:stream/promises";
import sharp from "sharp";
import type { PhotoRecord } from "../../domain/evidence/bag-record.ts";
import { type FilesHome, fileStorage } from "../photos/files.ts";
import { OPENING } from "../photos/picture.ts";
import type { PaperSource } from "./record.ts";

const SIDE_PX_MOST = 560;
const AT_ONCE = 2;
// Each photo is shrunk once: what libvips kept of it would only fill memory.
sharp.cache(false);

type Copies = PaperSource["pictures"];

/** A photo that is not in the data folder as it came in, or cannot be read, has no copy. */
export async function smallCopies(
  home: FilesHome,
  firmId: string,
  photos: readonly PhotoRecord[],
): Promise<Copies> {
  const storage = fileStorage(home);
  const copies = new Map<string, NonNullable<ReturnType<Copies["get"]>>>();
  for (let at = 0; at < photos.length; at += AT_ONCE) {
    await Promise.all(
      photos.slice(at, at + AT_ONCE).map(async ({ sha256, bytes }) => {
        if ((await storage.size({ firmId, sha256 })) !== bytes) return;
        const copy = await smallCopy(storage.open({ firmId, sha256 }));
        if (copy) copies.set(sha256, copy);
      }),
    );
  }
  return copies;
}

async function smallCopy(photo: Readable) {
  const shrink = sharp(OPENING)
    .rotate()
    .resize(SIDE_PX_MOST, SIDE_PX_MOST, { fit: "inside", withoutEnlargement: true })
    .flatten({ background: "#ffffff" })
    .toColourspace("srgb")
    .jpeg({ quality: 72 });
  try {
    const [{ data, info }] = await Promise.all([
      shrink.toBuffer({ resolveWithObject: true }),
      pipeline(photo, shrink),
    ]);
    return { jpeg: new Uint8Array(data), widthPx: info.width, heightPx: info.height };
  } catch {
    return undefined;
  }
}
