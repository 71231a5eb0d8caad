// Where files lie that were sent in to be imported: they are read from there as often as needed,
// never held in memory, and removed once the import is history.
import { createHash } from "node:crypto";
import { createReadStream, createWriteStream } from "node:fs";
import { mkdir, rename, rm } from "node:fs/promises";
import { dirname, join } from "node:path";
import { Transform } from "node:stream";
import { pipeline } from "node:stream/promises";
import {
  ENCODING_SAMPLE_BYTES,
  type Encoding,
  guessEncoding,
} from "../../domain/tables/encoding.ts";
import { Problem } from "../../errors.ts";
import { FILE_BYTES_MOST } from "./schemas.ts";

export interface FilePlace {
  dataFolder: string;
  firmId: string;
  importId: string;
}

const pathOf = ({ dataFolder, firmId, importId }: FilePlace): string =>
  join(dataFolder, "imports", firmId, `${importId}.csv`);

/** The file, or so many bytes of its beginning. */
export const openImportFile = (place: FilePlace, bytesMost = Number.POSITIVE_INFINITY) =>
  createReadStream(pathOf(place), { end: bytesMost - 1 });

export const dropImportFile = (place: FilePlace): Promise<void> =>
  rm(pathOf(place), { force: true });

export interface KeptFile {
  bytes: number;
  sha256: string;
  encoding: Encoding;
}

/** Writes what comes in to its place; it stands there whole or not at all. */
export async function keepImportFile(
  place: FilePlace,
  source: AsyncIterable<Uint8Array>,
): Promise<KeptFile> {
  const path = pathOf(place);
  await mkdir(dirname(path), { recursive: true, mode: 0o700 });
  const partial = `${path}.${process.pid}-${Date.now()}.part`;
  const seen = new SeenBytes();
  try {
    const passing = new Transform({
      transform: (chunk: Buffer, _encoding, done) => {
        const fault = seen.take(chunk);
        done(fault, chunk);
      },
    });
    await pipeline(source, passing, createWriteStream(partial, { flags: "wx", mode: 0o600 }));
    if (seen.bytes === 0) throw new Problem("unreadable-body", "The file is empty.");
    await rename(partial, path);
    return seen.summary();
  } finally {
    await rm(partial, { force: true });
  }
}

/** What is learnt of a file while it passes by. */
class SeenBytes {
  bytes = 0;
  private readonly hash = createHash("sha256");
  private readonly utf8 = new TextDecoder("utf-8", { fatal: true });
  private isUtf8 = true;
  private beginning = Buffer.alloc(0);

  take(chunk: Buffer): Problem | null {
    this.bytes += chunk.length;
    if (this.bytes > FILE_BYTES_MOST) {
      const most = `${FILE_BYTES_MOST / 1024 / 1024} MB`;
      return new Problem("body-too-large", `The file has more than ${most}. Send it in parts.`);
    }
    this.hash.update(chunk);
    if (this.beginning.length < ENCODING_SAMPLE_BYTES) {
      const missing = ENCODING_SAMPLE_BYTES - this.beginning.length;
      this.beginning = Buffer.concat([this.beginning, chunk.subarray(0, missing)]);
    }
    if (this.isUtf8) this.isUtf8 = this.decodes(chunk);
    return null;
  }

  summary(): KeptFile {
    const isUtf8 = this.isUtf8 && this.decodes();
    const encoding = guessEncoding(this.beginning, isUtf8);
    return { bytes: this.bytes, sha256: this.hash.digest("hex"), encoding };
  }

  private decodes(chunk?: Buffer): boolean {
    try {
      this.utf8.decode(chunk, { stream: chunk !== undefined });
      return true;
    } catch {
      return false;
    }
  }
}
