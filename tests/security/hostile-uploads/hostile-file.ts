// What the table of hostile files holds, and sound pictures that most of them are made from.
import sharp from "sharp";

export interface HostileFile {
  what: string;
  bytes: Buffer;
  /** What its sender calls it. */
  type: string;
  /** Set where the file is what it seems to be after all, with something else behind it. */
  sound?: "image/jpeg" | "image/png" | "image/webp" | "application/pdf";
  /** What must not come out where it is shown. */
  payload?: string;
}

/** Signs that a script would stand in. */
export const SCRIPT = "<script>document.title='ran'</script>";

const SIZE = { width: 48, height: 32 };

/** Pictures with something in them, the same bytes each time. */
function pattern() {
  const bytes = Buffer.alloc(SIZE.width * SIZE.height * 3);
  for (let at = 0; at < bytes.length; at += 1) bytes[at] = (at * 31 + (at >> 5) * 17) % 256;
  return sharp(bytes, { raw: { ...SIZE, channels: 3 } });
}

export const soundPictures = async () => ({
  jpeg: await pattern().jpeg().toBuffer(),
  progressive: await pattern().jpeg({ progressive: true }).toBuffer(),
  png: await pattern().png().toBuffer(),
  webp: await pattern().webp().toBuffer(),
  lossless: await pattern().webp({ lossless: true }).toBuffer(),
  gif: await pattern().gif().toBuffer(),
  tiff: await pattern().tiff().toBuffer(),
});
export type SoundPictures = Awaited<ReturnType<typeof soundPictures>>;

export const PDF = Buffer.from(
  "%PDF-1.7\n1 0 obj\n<</Type/Catalog/Pages 2 0 R>>\nendobj\n2 0 obj\n<</Type/Pages/Kids[]" +
    "/Count 0>>\nendobj\nxref\n0 3\n0000000000 65535 f \n0000000009 00000 n \n" +
    "0000000054 00000 n \ntrailer\n<</Size 3/Root 1 0 R>>\nstartxref\n101\n%%EOF\n",
);

export const hostile = (what: string, bytes: Buffer | string, type: string): HostileFile => ({
  ...{ what, type },
  bytes: typeof bytes === "string" ? Buffer.from(bytes) : bytes,
});
