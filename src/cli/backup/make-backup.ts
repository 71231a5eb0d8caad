// One file of everything: the database as it was at one moment, and the files that it names. The
// moment is fixed first; a photo is in the folder before the database names it and is never
// changed, so each that this moment names is there to be copied, whatever comes in meanwhile.
import { readFileSync } from "node:fs";
import { promisify } from "node:util";
import { gzip } from "node:zlib";
import { type Snapshot, withSnapshot } from "../../db/backup/snapshot.ts";
import type { TableFacts } from "../../db/backup/tables.ts";
import { type FilesHome, fileStorage } from "../../features/photos/files.ts";
import { keptName, listFolder, pathOf } from "./folder.ts";
import { DATABASE, type End, FORMAT, HEAD, type Head } from "./format.ts";
import { type ArchiveWriter, numbered } from "./write-archive.ts";

const PART_BYTES = 4 * 1024 * 1024;
const NEW_LINE = 0x0a;
const compress = promisify(gzip);

export interface Source {
  ownerUrl: string;
  home: FilesHome;
}

export async function makeBackup(
  { ownerUrl, home }: Source,
  archive: ArchiveWriter,
  madeAt: Date,
): Promise<End> {
  const { dataFolder } = home;
  return withSnapshot(ownerUrl, async (snapshot) => {
    const head = Buffer.from(`${JSON.stringify(headOf(snapshot, madeAt), null, 2)}\n`);
    await archive.add(HEAD, head);
    // Keys first: whoever restores needs them before the database can be opened.
    for await (const name of listFolder(dataFolder)) {
      await archive.addFile(name, pathOf(dataFolder, name));
    }
    const rows: End["rows"] = {};
    for (const table of snapshot.tables) {
      rows[table.name] = await addRows(archive, table, snapshot.rowsOf(table));
    }
    return archive.finish({ rows, ...(await addKept(archive, snapshot, home)) });
  });
}

const headOf = (snapshot: Snapshot, madeAt: Date): Head => ({
  format: FORMAT,
  madeAt: madeAt.toISOString(),
  version: programVersion(),
  serverVersion: snapshot.serverVersion,
  migrations: [...snapshot.migrations],
  tables: [...snapshot.tables],
});

const programVersion = (): string =>
  JSON.parse(readFileSync(new URL("../../../package.json", import.meta.url), "utf8")).version;

/** In parts of whole rows and a bounded size; returns how many rows. */
async function addRows(
  archive: ArchiveWriter,
  { name }: TableFacts,
  bytes: AsyncIterable<Buffer>,
): Promise<number> {
  let rows = 0;
  let parts = 0;
  for await (const part of wholeRows(bytes)) {
    rows += countRows(part);
    parts += 1;
    const packed = await compress(part, { level: 1 });
    await archive.add(`${DATABASE}${name}/${numbered(parts)}.copy.gz`, packed);
  }
  return rows;
}

async function* wholeRows(bytes: AsyncIterable<Buffer>): AsyncGenerator<Buffer> {
  let waiting: Buffer[] = [];
  let size = 0;
  for await (const chunk of bytes) {
    waiting.push(chunk);
    size += chunk.length;
    const end = size < PART_BYTES ? -1 : chunk.lastIndexOf(NEW_LINE);
    if (end < 0) continue;
    const all = Buffer.concat(waiting);
    const whole = all.length - chunk.length + end + 1;
    yield all.subarray(0, whole);
    waiting = [all.subarray(whole)];
    size = all.length - whole;
  }
  if (size > 0) yield Buffer.concat(waiting);
}

/** A line break inside a value is written as \n, so each that stands there ends a row. */
function countRows(chunk: Buffer): number {
  let rows = 0;
  for (let at = chunk.indexOf(NEW_LINE); at >= 0; at = chunk.indexOf(NEW_LINE, at + 1)) rows += 1;
  return rows;
}

const MISSING_TOLD = 1000;

/** Photos and documents from wherever they lie: a restore puts them into a data folder. */
async function addKept(archive: ArchiveWriter, snapshot: Snapshot, home: FilesHome) {
  const storage = fileStorage(home);
  let files = 0;
  const missing: string[] = [];
  for await (const kept of snapshot.keptFiles()) {
    const name = keptName(home.dataFolder, kept);
    const size = await storage.size(kept);
    const added =
      size === undefined ? size : await archive.addStream(name, size, storage.open(kept));
    if (added?.sha256 === kept.sha256) files += 1;
    else if (missing.length < MISSING_TOLD) missing.push(name);
  }
  return { files, missing };
}
