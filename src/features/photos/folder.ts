// Where photos lie: one file a picture, named by its SHA-256, so that a name cannot mean two
// pictures.
import { createReadStream } from "node:fs";
import { mkdir, open, rename, rm, stat } from "node:fs/promises";
import { dirname, join } from "node:path";
import type { Readable } from "node:stream";
import { uuidv7 } from "uuidv7";

/**
 * Written whole and flushed before it gets its name: a crash leaves no half picture behind a hash.
 */
export async function keepPhoto(
  dataFolder: string,
  firmId: string,
  sha256: string,
  bytes: Buffer,
): Promise<void> {
  const path = photoPath(dataFolder, firmId, sha256);
  if (await exists(path)) return;
  await mkdir(dirname(path), { recursive: true });
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

/** Large enough that a bag of thousands of pictures is not made of small reads. */
const READ_BYTES = 512 * 1024;

export const openPhoto = (dataFolder: string, firmId: string, sha256: string): Readable =>
  createReadStream(photoPath(dataFolder, firmId, sha256), { highWaterMark: READ_BYTES });

/** Size of a photo's file; undefined when it is not there. */
export const photoBytes = (
  dataFolder: string,
  firmId: string,
  sha256: string,
): Promise<number | undefined> =>
  stat(photoPath(dataFolder, firmId, sha256)).then(
    ({ size }) => size,
    () => undefined,
  );

export function photoPath(dataFolder: string, firmId: string, sha256: string): string {
  return join(dataFolder, "photos", firmId, sha256.slice(0, 2), sha256);
}

const exists = (path: string): Promise<boolean> =>
  stat(path).then(
    () => true,
    () => false,
  );
