import type { Readable } from "node:stream";

export interface FileName {
  firmId: string;
  sha256: string;
}

export interface FileStorage {
  /** Whole and durable when it returns; the same file again is fine. */
  keep(name: FileName, bytes: Buffer): Promise<void>;
  open(name: FileName): Readable;
  /** Size in bytes; undefined when there is no such file. */
  size(name: FileName): Promise<number | undefined>;
}
