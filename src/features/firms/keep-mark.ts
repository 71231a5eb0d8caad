import sharp from "sharp";
import { invalid } from "../../errors.ts";
import { OPENING, readPicture } from "../photos/picture.ts";

const WIDTH_PX_MOST = 800;
const HEIGHT_PX_MOST = 300;
const KEPT_BYTES_MOST = 512 * 1024;

/** A mark as it is kept: drawn anew as a PNG of bounded size, so nothing else comes with it. */
export async function markFrom(bytes: Buffer): Promise<Uint8Array<ArrayBuffer>> {
  const reading = await readPicture(bytes);
  if (!reading.ok) throw invalid("/body/mark", reading.problem);
  const mark = await sharp(bytes, OPENING)
    .rotate()
    .resize(WIDTH_PX_MOST, HEIGHT_PX_MOST, { fit: "inside", withoutEnlargement: true })
    .png({ palette: true })
    .toBuffer();
  if (mark.length > KEPT_BYTES_MOST) {
    throw invalid("/body/mark", "The picture has too much in it for a mark; send a simpler one.");
  }
  return new Uint8Array(mark);
}
