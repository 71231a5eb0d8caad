import type { BagAlgorithm } from "../domain/evidence/bag-manifest.ts";

/** What a file comes to. */
export type FileSums = Record<BagAlgorithm, string> & { bytes: number; crc: number };

/** Takes a file's sums as it passes in parts; by the platform's own digests where it has them. */
export type Summing = (parts: AsyncIterable<Uint8Array>) => Promise<FileSums>;
