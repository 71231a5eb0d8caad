// Reads a backup from its first byte to its last and holds every entry against the sums in it.
import { createHash } from "node:crypto";
import { pipeline } from "node:stream/promises";
import { extract, type Header } from "tar-stream";
import {
  END,
  End,
  HEAD,
  HEAD_BYTES_MOST,
  Head,
  isEntryName,
  SUMS,
  SUMS_A_FILE,
  sumLine,
} from "./format.ts";

export interface Contents {
  head: Head;
  end: End;
}

/** Given each entry after the head; it reads the entry's bytes or leaves them. */
export type Visit = (name: string, bytes: AsyncIterable<Buffer>, head: Head) => Promise<void>;

type Entry = AsyncIterable<Buffer> & { header: Header };

export class DamagedBackup extends Error {}

export async function readArchive(
  source: AsyncIterable<Uint8Array>,
  visit: Visit,
): Promise<Contents> {
  try {
    return await readEntries(source, visit);
  } catch (cause) {
    throw damageIn(cause) ?? cause;
  }
}

async function readEntries(source: AsyncIterable<Uint8Array>, visit: Visit): Promise<Contents> {
  const archive = extract();
  const feeding = pipeline(source, archive);
  // Told below, where it is awaited.
  feeding.catch(() => undefined);
  const sums = new Sums();
  let head: Head | undefined;
  let end: End | undefined;
  for await (const entry of archive as AsyncIterable<unknown> as AsyncIterable<Entry>) {
    const { name } = entry.header;
    if (end || !isEntryName(name) || entry.header.type !== "file") throw strange(name);
    if (name === END) end = sums.close(await textOf(entry));
    else if (name.startsWith(SUMS)) sums.compare(name, await textOf(entry));
    else if (head) await sums.pass(entry, (bytes) => visit(name, bytes, head as Head));
    else head = await readHead(name, entry, sums);
  }
  await feeding;
  if (!head || !end) throw new DamagedBackup("The backup was cut off: its end is missing.");
  return { head, end };
}

async function readHead(name: string, entry: Entry, sums: Sums): Promise<Head> {
  if (name !== HEAD) throw new DamagedBackup(`This is no backup: it begins with ${name}.`);
  let text = "";
  await sums.pass(entry, async (bytes) => {
    text = await textOf(bytes);
  });
  const parsed = Head.safeParse(JSON.parse(text));
  if (!parsed.success) throw new DamagedBackup("This is no backup that this version can read.");
  return parsed.data;
}

/** What the reader of tar files or of JSON says of bytes that are not what was written. */
function damageIn(cause: unknown): DamagedBackup | undefined {
  const why = cause instanceof Error ? cause.message : "";
  if (/Unexpected end of data/.test(why)) {
    return new DamagedBackup("The backup was cut off: its end is missing.", { cause });
  }
  if (!/Invalid tar header/.test(why) && !(cause instanceof SyntaxError)) return;
  return new DamagedBackup(`This is no backup, or it was altered: ${why}`, { cause });
}

class Sums {
  readonly #all = createHash("sha256");
  #lines: string[] = [];
  #entries = 0;
  #bytes = 0;

  async pass(entry: Entry, use: (bytes: AsyncIterable<Buffer>) => Promise<void>): Promise<void> {
    const hash = createHash("sha256");
    const bytes = this.#counted(entry, (chunk) => hash.update(chunk));
    await use(bytes);
    for await (const _rest of bytes);
    this.#entries += 1;
    this.#lines.push(sumLine(hash.digest("hex"), entry.header.name));
    if (this.#lines.length > SUMS_A_FILE)
      throw new DamagedBackup("Sums are missing in the backup.");
  }

  async *#counted(entry: Entry, see: (chunk: Buffer) => void): AsyncGenerator<Buffer> {
    for await (const chunk of entry) {
      this.#bytes += chunk.length;
      see(chunk);
      yield chunk;
    }
  }

  compare(name: string, text: string): void {
    if (text !== this.#lines.join("")) throw new DamagedBackup(damage(this.#lines, text, name));
    this.#all.update(text);
    this.#lines = [];
  }

  close(text: string): End {
    const end = End.safeParse(JSON.parse(text));
    const holds =
      end.success &&
      this.#lines.length === 0 &&
      end.data.entries === this.#entries &&
      end.data.bytes === this.#bytes &&
      end.data.sums === this.#all.digest("hex");
    if (!holds) throw new DamagedBackup("The backup was altered: its end does not fit the rest.");
    return end.data;
  }
}

function damage(found: readonly string[], listed: string, name: string): string {
  const kept = new Set(listed.split("\n"));
  const line = found.find((text) => !kept.has(text.trimEnd()));
  return `The backup was altered: ${line?.slice(66).trimEnd() ?? name} is not as it was written.`;
}

const strange = (name: string): Error => new DamagedBackup(`The backup holds a strange ${name}.`);

async function textOf(bytes: AsyncIterable<Buffer>): Promise<string> {
  const chunks: Buffer[] = [];
  let size = 0;
  for await (const chunk of bytes) {
    size += chunk.length;
    if (size > HEAD_BYTES_MOST) throw new DamagedBackup("The backup's list is too long.");
    chunks.push(chunk);
  }
  return Buffer.concat(chunks).toString("utf8");
}
