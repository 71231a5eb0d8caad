// Serials off a photo of a label. The decoder is large and is loaded when it is first needed; it
// lies in the page's own store, so that takes no signal.
import { serialsOnLabel } from "../../domain/identifiers/serials-on-label.ts";

export type Scanned = { ok: true; serials: readonly string[] } | { ok: false; problem: string };

const DECODER = "/tablet/assets/zxing_reader.wasm";
const NOTHING = "No code was found in the picture. Go nearer, keep it level, or type the serial.";

/** The serials in all codes of a picture, in the order in which they are found. */
export async function scanLabel(picture: Blob): Promise<Scanned> {
  const texts = await codesIn(picture).catch(() => undefined);
  if (!texts) return { ok: false, problem: "The scanner did not start. Type the serial." };
  if (texts.length === 0) return { ok: false, problem: NOTHING };
  const readings = texts.map(serialsOnLabel);
  const serials = [...new Set(readings.flatMap((one) => one.serials.map(({ serial }) => serial)))];
  const problem = readings.flatMap(({ problems }) => problems)[0]?.problem;
  return serials.length > 0 ? { ok: true, serials } : { ok: false, problem: problem ?? NOTHING };
}

async function codesIn(picture: Blob): Promise<string[]> {
  const { prepareZXingModule, readBarcodes } = await import("zxing-wasm/reader");
  const locateFile = (name: string, folder: string): string =>
    name.endsWith(".wasm") ? DECODER : `${folder}${name}`;
  prepareZXingModule({ overrides: { locateFile } });
  const codes = await readBarcodes(picture, { tryHarder: true, maxNumberOfSymbols: 20 });
  return codes.filter(({ isValid }) => isValid).map(({ text }) => text);
}
