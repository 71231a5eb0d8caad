// The firm's mark as letters to customers bear it: small, so that an outbox of many letters stays
// small too, and inside of the letter, since pictures from elsewhere are not shown unasked.
import sharp from "sharp";
import type { FirmTransaction } from "../../db/scope.ts";
import { insideCid, type MailAttachment } from "../mail/store.ts";
import { readMark } from "./branding-store.ts";

const WIDTH_MOST = 200;
const HEIGHT_MOST = 60;
/** Pixels of the picture for one of the letter, for screens that show more of them. */
const DENSITY = 2;
const NAME = "mark.png";

export interface LetterMark {
  src: string;
  width: number;
  height: number;
  file: MailAttachment;
}

/** Null where the firm keeps no mark. */
export async function readLetterMark(tx: FirmTransaction): Promise<LetterMark | null> {
  const mark = await readMark(tx);
  if (!mark) return null;
  const { data, info } = await sharp(mark)
    .resize(WIDTH_MOST * DENSITY, HEIGHT_MOST * DENSITY, {
      fit: "inside",
      withoutEnlargement: true,
    })
    .png({ palette: true })
    .toBuffer({ resolveWithObject: true });
  const [width, height] = [info.width, info.height].map((pixels) =>
    Math.max(1, Math.round(pixels / DENSITY)),
  ) as [number, number];
  const file = { name: NAME, contentType: "image/png", content: data };
  return { src: `cid:${insideCid(NAME)}`, width, height, file };
}
