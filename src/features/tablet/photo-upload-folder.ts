// Where photos lie while they are still coming in: a file each, which grows from the front. Bytes
// are written at the place that the sender says they have, so none stands out of order.
import { type FileHandle, mkdir, open, readdir, readFile, rm, rmdir, stat } from "node:fs/promises";
import { dirname, join } from "node:path";

const FOLDER = "photo-uploads";

export interface UploadPlace {
  dataFolder: string;
  firmId: string;
  jobId: string;
  sha256: string;
}

const pathOf = ({ dataFolder, firmId, jobId, sha256 }: UploadPlace): string =>
  join(dataFolder, FOLDER, firmId, jobId.toLowerCase(), `${sha256}.part`);

/** How many bytes are there, flushed before they are told: a power cut takes none of them back. */
export async function flushedBytes(place: UploadPlace): Promise<number> {
  const file = await openIfThere(pathOf(place));
  if (!file) return 0;
  try {
    await file.sync();
    return (await file.stat()).size;
  } finally {
    await file.close();
  }
}

export async function openUpload(place: UploadPlace): Promise<FileHandle> {
  const path = pathOf(place);
  const there = await openIfThere(path);
  if (there) return there;
  await mkdir(dirname(path), { recursive: true, mode: 0o700 });
  return open(path, "wx+", 0o600);
}

export const readUpload = (place: UploadPlace): Promise<Buffer> => readFile(pathOf(place));

export const dropUpload = (place: UploadPlace): Promise<void> => rm(pathOf(place), { force: true });

/** How many photos of the firm are on their way. */
export async function countUploads(dataFolder: string, firmId: string): Promise<number> {
  const jobs = await namesIn(join(dataFolder, FOLDER, firmId));
  const files = await Promise.all(
    jobs.map((job) => namesIn(join(dataFolder, FOLDER, firmId, job))),
  );
  return files.flat().length;
}

/** Removes what nobody went on with since `before`; how many there were. */
export async function dropStaleUploads(
  dataFolder: string,
  firmId: string,
  before: Date,
): Promise<number> {
  let removed = 0;
  for (const job of await namesIn(join(dataFolder, FOLDER, firmId))) {
    const folder = join(dataFolder, FOLDER, firmId, job);
    for (const name of await namesIn(folder)) {
      const path = join(folder, name);
      if ((await stat(path)).mtime >= before) continue;
      await rm(path, { force: true });
      removed += 1;
    }
    // Stays where a photo is on its way.
    await rmdir(folder).catch(() => undefined);
  }
  return removed;
}

async function openIfThere(path: string): Promise<FileHandle | undefined> {
  try {
    return await open(path, "r+");
  } catch (error) {
    if (isMissing(error)) return undefined;
    throw error;
  }
}

async function namesIn(folder: string): Promise<string[]> {
  try {
    return await readdir(folder);
  } catch (error) {
    if (isMissing(error)) return [];
    throw error;
  }
}

const isMissing = (error: unknown): boolean => (error as { code?: unknown }).code === "ENOENT";
