import type { BagFault } from "../domain/evidence/bag-fault.ts";

/** The files of a bag, wherever they lie. */
export interface BagSource {
  names: readonly string[];
  /** What is wrong with the way they lie there. */
  faults: readonly BagFault[];
  /** Of all files together; left out where it is not known before. */
  bytes?: number;
  open(name: string): AsyncIterable<Uint8Array>;
  /** CRC-32 that the container states for a file, where it states one. */
  crcOf?(name: string): number | undefined;
}

/** What is read whole is text or a seal; photos and papers pass in parts. */
const WHOLE_MOST_BYTES = 256 * 1024 * 1024;

export async function readBytes(source: BagSource, name: string): Promise<Uint8Array> {
  const parts: Uint8Array[] = [];
  let length = 0;
  for await (const part of source.open(name)) {
    length += part.length;
    if (length > WHOLE_MOST_BYTES) throw new Error(`${name} is larger than any bag's of its name.`);
    parts.push(part);
  }
  return joined(parts, length);
}

/** A file as text; bytes that are no UTF-8 come out as replacement characters. */
export const readText = async (source: BagSource, name: string): Promise<string> =>
  new TextDecoder("utf-8", { ignoreBOM: true }).decode(await readBytes(source, name));

export function joined(parts: readonly Uint8Array[], length: number): Uint8Array {
  const bytes = new Uint8Array(length);
  let at = 0;
  for (const part of parts) {
    bytes.set(part, at);
    at += part.length;
  }
  return bytes;
}
