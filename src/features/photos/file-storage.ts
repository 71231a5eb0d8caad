import type { Readable } from "node:stream";

export interface FileName {
  firmId: string;
  sha256: string;
}

/** Where the file lies within a data folder or a bucket: the same in both. */
export const placeOf = ({ firmId, sha256 }: FileName): string =>
  `photos/${firmId}/${sha256.slice(0, 2)}/${sha256}`;

export interface FileStorage {
  /** Whole and durable when it returns; the same file again is fine. */
  keep(name: FileName, bytes: Buffer): Promise<void>;
  open(name: FileName): Readable;
  /** Size in bytes; undefined when there is no such file. */
  size(name: FileName): Promise<number | undefined>;
}
