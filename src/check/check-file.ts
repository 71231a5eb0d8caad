import { type BagReport, type CheckOptions, checkBag } from "../verify/bag.ts";
import type { RandomAccess } from "../verify/random-access.ts";
import { openZip } from "../verify/zip.ts";
import { summing } from "./sums.ts";

/** What a browser is handed when somebody chooses a file. */
export type ChosenFile = Blob & { readonly name: string };

export interface Wish extends Omit<CheckOptions, "sumsOf" | "onProgress"> {
  onProgress?(done: number, total: number): void;
}

/** As much of a file as lies in memory at a time. */
const PART_BYTES = 4 * 1024 * 1024;

/** Checks a bag that was chosen; throws one sentence about what keeps it from being read. */
export async function checkFile(
  file: ChosenFile,
  { onProgress, ...wish }: Wish,
): Promise<BagReport> {
  const source = await openZip(inParts(file));
  return checkBag(source, {
    ...{ ...wish, sumsOf: summing() },
    onProgress: (done) => onProgress?.(done, source.bytes ?? 0),
  });
}

const inParts = (file: ChosenFile): RandomAccess => ({
  ...{ name: file.name, size: file.size },
  read: async function* read(start, end) {
    for (let at = start; at < end; at += PART_BYTES) {
      const part = file.slice(at, Math.min(end, at + PART_BYTES));
      yield new Uint8Array(await part.arrayBuffer());
    }
  },
});
