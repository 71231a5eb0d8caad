// A paper of a record that has not changed since is not drawn again: it lies in the data folder
// under a name made of all that it shows. Drawing takes a second or two, an export of years of
// jobs would be hours of it. What lies there can be removed: it is drawn again when asked for.
import { createHash } from "node:crypto";
import { mkdir, open, readdir, readFile, rename, rm, stat } from "node:fs/promises";
import { join } from "node:path";
import { uuidv7 } from "uuidv7";

export interface PaperPlace {
  dataFolder: string;
  firmId: string;
  jobId: string;
}

/** In both languages and on both sizes of sheet; older ones of the job go. */
const KEPT_A_JOB = 4;

const folderOf = ({ dataFolder, firmId, jobId }: PaperPlace): string =>
  join(dataFolder, "papers", firmId, jobId);

/**
 * The paper kept for this place and source, or drawn and kept now.
 * @param source all that bears on the paper's bytes
 */
export async function keptPaper(
  place: PaperPlace,
  source: object,
  draw: () => Promise<Buffer>,
): Promise<Buffer> {
  const name = `${sha256(JSON.stringify(source, pictureByHash))}.pdf`;
  const path = join(folderOf(place), name);
  const kept = await readFile(path).catch(() => undefined);
  if (kept) return kept;
  const pdf = await draw();
  await keep(folderOf(place), path, pdf);
  await dropOldest(folderOf(place), name);
  return pdf;
}

const sha256 = (content: string | Uint8Array): string =>
  createHash("sha256").update(content).digest("hex");

const pictureByHash = (_name: string, value: unknown): unknown =>
  value instanceof Uint8Array ? sha256(value) : value;

/** Whether the job has a paper that was drawn after the moment. */
export async function hasPaperSince(place: PaperPlace, moment: Date): Promise<boolean> {
  const times = await paperTimes(folderOf(place));
  return times.some(({ ms }) => ms >= moment.getTime());
}

/** Removes every paper of the job; what is asked for afterwards is drawn anew. */
export const dropPapers = (place: PaperPlace): Promise<void> =>
  rm(folderOf(place), { recursive: true, force: true });

/** Flushed before it gets its name, so that half a paper is never taken for one. */
async function keep(folder: string, path: string, pdf: Buffer): Promise<void> {
  await mkdir(folder, { recursive: true, mode: 0o700 });
  const partial = `${path}.${uuidv7()}.part`;
  try {
    const file = await open(partial, "wx", 0o600);
    await file.writeFile(pdf).finally(async () => {
      await file.sync();
      await file.close();
    });
    await rename(partial, path);
  } finally {
    await rm(partial, { force: true });
  }
}

async function dropOldest(folder: string, newest: string): Promise<void> {
  const others = (await paperTimes(folder)).filter(({ name }) => name !== newest);
  const old = others.sort((a, b) => b.ms - a.ms).slice(KEPT_A_JOB - 1);
  await Promise.all(old.map(({ name }) => rm(join(folder, name), { force: true })));
}

async function paperTimes(folder: string): Promise<{ name: string; ms: number }[]> {
  const names = await readdir(folder).catch(() => []);
  const times = names
    .filter((name) => name.endsWith(".pdf"))
    .map(async (name) => {
      const ms = await stat(join(folder, name)).then(
        ({ mtimeMs }) => mtimeMs,
        () => 0,
      );
      return { name, ms };
    });
  return Promise.all(times);
}
