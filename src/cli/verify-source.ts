import type { Readable } from "node:stream";
import { text } from "node:stream/consumers";
import type { BagFault } from "../domain/evidence/recheck-verdicts.ts";

/** The files of a bag, wherever they lie. */
export interface BagSource {
  names: readonly string[];
  /** What is wrong with the way they lie there. */
  faults: readonly BagFault[];
  open(name: string): Readable;
}

/** A file as text; bytes that are no UTF-8 come out as replacement characters. */
export const readText = (source: BagSource, name: string): Promise<string> =>
  text(source.open(name));
