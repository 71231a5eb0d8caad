// Where photos lie: one file a picture, named by its SHA-256, so that a name cannot mean two
// pictures.
import { mkdir, open, rename, rm, stat } from "node:fs/promises";
import { dirname, join } from "node:path";
import { uuidv7 } from "uuidv7";
import { type FileName, type FileStorage, placeOf } from "./file-storage.ts";
import { readInPieces } from "./pieces.ts";

/** Files in the data folder. */
export const folder = (dataFolder: string): FileStorage => ({
  keep: (name, bytes) => keep(pathOfFile(dataFolder, name), bytes),
  open: (name) => readInPieces(pathOfFile(dataFolder, name)),
  size: (name) =>
    stat(pathOfFile(dataFolder, name)).then(
      ({ size }) => size,
      () => undefined,
    ),
});

/**
 * Written whole and flushed before it gets its name: a crash leaves no half picture behind a hash.
 */
async function keep(path: string, bytes: Buffer): Promise<void> {
  if (await exists(path)) return;
  await mkdir(dirname(path), { recursive: true, mode: 0o700 });
  const partial = `${path}.${uuidv7()}.part`;
  try {
    const file = await open(partial, "wx", 0o600);
    try {
      await file.writeFile(bytes);
      await file.sync();
    } finally {
      await file.close();
    }
    await rename(partial, path);
  } finally {
    await rm(partial, { force: true });
  }
}

export const pathOfFile = (dataFolder: string, name: FileName): string =>
  join(dataFolder, placeOf(name));

const exists = (path: string): Promise<boolean> =>
  stat(path).then(
    () => true,
    () => false,
  );
