import { createHash, type Hash } from "node:crypto";
import { createReadStream } from "node:fs";
import { stat } from "node:fs/promises";
import { Readable, type Writable } from "node:stream";
import { pipeline } from "node:stream/promises";
import { pack } from "tar-stream";
import { END, type End, isEntryName, SUMS, SUMS_A_FILE, sumLine } from "./format.ts";

type Counts = Pick<End, "rows" | "files" | "missing">;

/** Writes entry after entry; at most one is held in memory, files are streamed. */
export class ArchiveWriter {
  readonly #pack = pack();
  readonly #mtime: Date;
  readonly #all: Hash = createHash("sha256");
  #sums: string[] = [];
  #sumFiles = 0;
  #entries = 0;
  #bytes = 0;

  constructor(mtime: Date) {
    this.#mtime = mtime;
  }

  /** The archive's own bytes, as they are written. */
  get output(): AsyncIterable<Uint8Array> {
    return this.#pack as AsyncIterable<Uint8Array>;
  }

  fail(cause: Error): void {
    this.#pack.destroy(cause);
  }

  get bytes(): number {
    return this.#bytes;
  }

  async add(name: string, content: Buffer): Promise<void> {
    await this.#put(name, content);
    await this.#note(name, createHash("sha256").update(content).digest("hex"), content.length);
  }

  /** Undefined where there is no such file. */
  async addFile(name: string, path: string): Promise<{ sha256: string } | undefined> {
    const size = await sizeOf(path);
    if (size === undefined) return;
    const bytes = size === 0 ? Readable.from([]) : createReadStream(path, { end: size - 1 });
    return this.addStream(name, size, bytes);
  }

  async addStream(name: string, size: number, bytes: Readable): Promise<{ sha256: string }> {
    requireName(name);
    const hash = createHash("sha256");
    const entry = this.#pack.entry({ ...this.#header(name), size });
    await pipeline(bytes, passing(hash, size, name), entry as unknown as Writable);
    const sha256 = hash.digest("hex");
    await this.#note(name, sha256, size);
    return { sha256 };
  }

  async finish(counts: Counts): Promise<End> {
    await this.#flushSums();
    const sums = this.#all.digest("hex");
    const end: End = { entries: this.#entries, bytes: this.#bytes, ...counts, sums };
    await this.#put(END, Buffer.from(`${JSON.stringify(end, null, 2)}\n`));
    this.#pack.finalize();
    return end;
  }

  #header = (name: string) => ({ name, mode: 0o600, mtime: this.#mtime });

  #put(name: string, content: Buffer): Promise<void> {
    requireName(name);
    return new Promise((resolve, reject) => {
      this.#pack.entry(this.#header(name), content, (error) => {
        if (error) reject(error);
        else resolve();
      });
    });
  }

  async #note(name: string, sha256: string, bytes: number): Promise<void> {
    this.#entries += 1;
    this.#bytes += bytes;
    this.#sums.push(sumLine(sha256, name));
    if (this.#sums.length >= SUMS_A_FILE) await this.#flushSums();
  }

  async #flushSums(): Promise<void> {
    if (this.#sums.length === 0) return;
    const text = this.#sums.join("");
    this.#sums = [];
    this.#all.update(text);
    this.#sumFiles += 1;
    await this.#put(`${SUMS}${numbered(this.#sumFiles)}.txt`, Buffer.from(text));
  }
}

export const numbered = (count: number): string => String(count).padStart(6, "0");

function requireName(name: string): void {
  if (!isEntryName(name)) throw new Error(`A file named ${name} cannot be backed up; rename it.`);
}

/** A file that got shorter meanwhile would leave a hole in the archive. */
const passing = (hash: Hash, size: number, name: string) =>
  async function* (chunks: AsyncIterable<Buffer>) {
    let seen = 0;
    for await (const chunk of chunks) {
      seen += chunk.length;
      hash.update(chunk);
      yield chunk;
    }
    if (seen !== size) throw new Error(`${name} changed while it was read. Back up again.`);
  };

const sizeOf = (path: string): Promise<number | undefined> =>
  stat(path).then(
    (file) => (file.isFile() ? file.size : undefined),
    (error: { code?: unknown }) => {
      if (error.code === "ENOENT") return undefined;
      throw error;
    },
  );
