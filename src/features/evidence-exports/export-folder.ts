// Where finished bags lie until they are fetched: whole or not at all.
import { createHash } from "node:crypto";
import { mkdir, open, rename, rm } from "node:fs/promises";
import { dirname, join } from "node:path";
import { type Readable, Transform } from "node:stream";
import { pipeline } from "node:stream/promises";
import { writeInPieces } from "../photos/pieces.ts";

export interface ExportPlace {
  dataFolder: string;
  firmId: string;
  exportId: string;
}

export const exportPath = ({ dataFolder, firmId, exportId }: ExportPlace): string =>
  join(dataFolder, "evidence", firmId, `${exportId}.zip`);

export const dropExport = (place: ExportPlace): Promise<void> =>
  rm(exportPath(place), { force: true });

/** Writes a bag to its place; flushed before it gets its name. */
export async function keepExport(
  place: ExportPlace,
  bag: Readable,
  workerId: string,
): Promise<{ bytes: number; sha256: string }> {
  const path = exportPath(place);
  await mkdir(dirname(path), { recursive: true, mode: 0o700 });
  const partial = `${path}.${workerId}.part`;
  const hash = createHash("sha256");
  let bytes = 0;
  const passing = new Transform({
    transform(chunk: Buffer, _encoding, done) {
      hash.update(chunk);
      bytes += chunk.length;
      done(null, chunk);
    },
  });
  try {
    await pipeline(bag, passing, writeInPieces(partial));
    await flush(partial);
    await rename(partial, path);
    return { bytes, sha256: hash.digest("hex") };
  } finally {
    await rm(partial, { force: true });
  }
}

async function flush(path: string): Promise<void> {
  const file = await open(path, "r+");
  try {
    await file.sync();
  } finally {
    await file.close();
  }
}
