// A picture is what its bytes say, not what its sender calls it; and it is never unpacked beyond a
// bound.
import sharp from "sharp";

const PIXELS_MOST = 60_000_000;
const MEDIA_TYPES = { jpeg: "image/jpeg", png: "image/png", webp: "image/webp" } as const;
const SIDE_PX_MOST = 2400;

export interface Picture {
  mediaType: (typeof MEDIA_TYPES)[keyof typeof MEDIA_TYPES];
  widthPx: number;
  heightPx: number;
}

export type PictureReading = { ok: true; picture: Picture } | { ok: false; problem: string };

/**
 * Looks at the header, then decodes once in small, so that a truncated or mixed file is found out.
 */
export async function readPicture(bytes: Buffer): Promise<PictureReading> {
  try {
    const image = sharp(bytes, { limitInputPixels: PIXELS_MOST, failOn: "truncated", pages: 1 });
    // Only the header is read here: unbounded, so that the refusal can name the size it states.
    const { format, width, height } = await sharp(bytes, { limitInputPixels: false }).metadata();
    if (format !== "jpeg" && format !== "png" && format !== "webp") {
      return {
        ok: false,
        problem: `The file is ${format ?? "of an unknown kind"}; send JPEG, PNG or WebP.`,
      };
    }
    if (width * height > PIXELS_MOST) {
      return {
        ok: false,
        problem: `The picture has ${width} × ${height} pixels; at most 60 million are taken.`,
      };
    }
    await image.resize(16, 16, { fit: "inside" }).raw().toBuffer();
    return {
      ok: true,
      picture: { mediaType: MEDIA_TYPES[format], widthPx: width, heightPx: height },
    };
  } catch {
    return { ok: false, problem: "The file is not a whole JPEG, PNG or WebP picture." };
  }
}

const SMALL_SIDE_PX_MOST = 320;

/** A copy to show: upright, bounded, re-encoded, without location or any other metadata. */
export function publishedCopy(size: "small" | "whole" = "whole") {
  const sidePx = size === "small" ? SMALL_SIDE_PX_MOST : SIDE_PX_MOST;
  return sharp({ limitInputPixels: PIXELS_MOST })
    .rotate()
    .resize(sidePx, sidePx, { fit: "inside", withoutEnlargement: true })
    .jpeg({ quality: size === "small" ? 75 : 85 });
}
