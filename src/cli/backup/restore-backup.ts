// The second reading of a backup, after the first has found it whole. Files go into a folder of
// their own, rows into one transaction that ends when all of them have been counted.
import { createWriteStream } from "node:fs";
import { mkdir } from "node:fs/promises";
import { dirname } from "node:path";
import { Readable } from "node:stream";
import { pipeline } from "node:stream/promises";
import { createGunzip } from "node:zlib";
import { TableLoader } from "../../db/backup/load.ts";
import { pathOf } from "./folder.ts";
import { DATABASE, type End, FOLDER, type Head } from "./format.ts";
import { DamagedBackup, readArchive } from "./read-archive.ts";

export interface Place {
  folder: string;
  /** Address of the empty database with the backup's tables; asked for when the keys are there. */
  openDatabase(head: Head): Promise<string>;
}

export async function restoreArchive(
  source: AsyncIterable<Uint8Array>,
  place: Place,
): Promise<void> {
  const rows: End["rows"] = {};
  let loader: TableLoader | undefined;
  const open = async (head: Head): Promise<TableLoader> =>
    TableLoader.open(await place.openDatabase(head));
  try {
    const { head, end } = await readArchive(source, async (name, bytes, head) => {
      if (name.startsWith(FOLDER)) return writeFile(pathOf(place.folder, name), bytes);
      const table = head.tables.find((known) => known.name === name.split("/")[1]);
      if (!name.startsWith(DATABASE) || !table) throw new DamagedBackup(`${name} is unknown.`);
      loader ??= await open(head);
      const unpacked = Readable.from(bytes).pipe(createGunzip());
      rows[table.name] = (rows[table.name] ?? 0) + (await loader.load(table, unpacked));
    });
    loader ??= await open(head);
    requireCounts(rows, end);
    await loader.finish();
  } finally {
    await loader?.close();
  }
}

async function writeFile(path: string, bytes: AsyncIterable<Buffer>): Promise<void> {
  await mkdir(dirname(path), { recursive: true });
  await pipeline(bytes, createWriteStream(path, { mode: 0o600, flags: "wx", flush: true }));
}

function requireCounts(rows: End["rows"], end: End): void {
  for (const [table, count] of Object.entries(end.rows)) {
    const stored = rows[table] ?? 0;
    if (stored === count) continue;
    throw new DamagedBackup(`Of ${table}, ${count} rows were backed up and ${stored} came back.`);
  }
}
