// Serials off a photo of a label. The decoder is large and is loaded when it is first needed; it
// lies in the page's own store, so that takes no signal.
import { serialsOnLabel } from "../../domain/identifiers/serials-on-label.ts";
import { phrase, retold } from "../language/spoken.ts";

export type Scanned = { ok: true; serials: readonly string[] } | { ok: false; problem: string };

const DECODER = "/tablet/assets/zxing_reader.wasm";

/** The serials in all codes of a picture, in the order in which they are found. */
export async function scanLabel(picture: Blob): Promise<Scanned> {
  const texts = await codesIn(picture).catch(() => undefined);
  if (!texts) return { ok: false, problem: phrase("tabletInput.noScanner") };
  if (texts.length === 0) return { ok: false, problem: phrase("tabletInput.noCode") };
  const readings = texts.map(serialsOnLabel);
  const serials = [...new Set(readings.flatMap((one) => one.serials.map(({ serial }) => serial)))];
  const problem = readings.flatMap(({ problems }) => problems)[0]?.problem;
  if (serials.length > 0) return { ok: true, serials };
  return { ok: false, problem: problem ? retold(problem) : phrase("tabletInput.noCode") };
}

async function codesIn(picture: Blob): Promise<string[]> {
  const { prepareZXingModule, readBarcodes } = await import("zxing-wasm/reader");
  const locateFile = (name: string, folder: string): string =>
    name.endsWith(".wasm") ? DECODER : `${folder}${name}`;
  prepareZXingModule({ overrides: { locateFile } });
  const codes = await readBarcodes(picture, { tryHarder: true, maxNumberOfSymbols: 20 });
  return codes.filter(({ isValid }) => isValid).map(({ text }) => text);
}
