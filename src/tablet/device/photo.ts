// Photos are made smaller on the tablet: what a record needs to show fits in two thousand pixels,
// and a cellar's signal is spent on readings. Turned upright here, because the reduced file says
// nothing of how the camera was held.
import type { DraftPhoto } from "../job/draft.ts";
import { phrase } from "../language/spoken.ts";

const SIDE_MOST_PX = 2048;
const QUALITY = 0.82;

export type PhotoTaken = { ok: true; photo: DraftPhoto } | { ok: false; problem: string };

/** A picture from the camera as a JPEG of at most 2048 pixels a side, with its SHA-256. */
export async function takePhoto(file: Blob): Promise<PhotoTaken> {
  let bitmap: ImageBitmap;
  try {
    bitmap = await createImageBitmap(file, { imageOrientation: "from-image" });
  } catch {
    return { ok: false, problem: phrase("tabletInput.noPicture") };
  }
  const blob = await reduced(bitmap);
  bitmap.close();
  if (!blob) return { ok: false, problem: phrase("tabletInput.notSmaller") };
  return { ok: true, photo: await draftPhoto(blob, "image/jpeg") };
}

function reduced(bitmap: ImageBitmap): Promise<Blob | null> {
  const scale = Math.min(1, SIDE_MOST_PX / Math.max(bitmap.width, bitmap.height));
  const canvas = document.createElement("canvas");
  canvas.width = Math.max(1, Math.round(bitmap.width * scale));
  canvas.height = Math.max(1, Math.round(bitmap.height * scale));
  const context = canvas.getContext("2d");
  if (!context) return Promise.resolve(null);
  context.drawImage(bitmap, 0, 0, canvas.width, canvas.height);
  return new Promise((resolve) => canvas.toBlob(resolve, "image/jpeg", QUALITY));
}

/** A finished picture with its SHA-256, by which the answer names it. */
export async function draftPhoto(
  blob: Blob,
  mediaType: DraftPhoto["mediaType"],
): Promise<DraftPhoto> {
  const digest = await crypto.subtle.digest("SHA-256", await blob.arrayBuffer());
  const hex = [...new Uint8Array(digest)].map((byte) => byte.toString(16).padStart(2, "0"));
  return { blob, mediaType, sha256: hex.join("") };
}
