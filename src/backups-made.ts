// Where it is noted that a backup was made: a line each in the data folder, so that whoever looks
// after the service sees when the last one was, whatever machine it went to.
import { appendFile, readFile } from "node:fs/promises";
import { join } from "node:path";
import { z } from "zod";

const BackupMade = z.object({
  at: z.iso.datetime(),
  name: z.string(),
  bytes: z.number(),
  files: z.number(),
  missing: z.number(),
  encrypted: z.boolean(),
});
export type BackupMade = z.infer<typeof BackupMade>;

const fileIn = (dataFolder: string): string => join(dataFolder, "backups.jsonl");

export async function noteBackup(dataFolder: string, made: BackupMade): Promise<void> {
  await appendFile(fileIn(dataFolder), `${JSON.stringify(made)}\n`, { mode: 0o600, flush: true });
}

/** The last so many, the latest first. */
export async function lastBackups(dataFolder: string, most: number): Promise<BackupMade[]> {
  const text = await readFile(fileIn(dataFolder), "utf8").catch((error: { code?: unknown }) => {
    if (error.code === "ENOENT") return "";
    throw error;
  });
  const lines = text.split("\n").filter(Boolean).slice(-most).reverse();
  return lines.map((line) => BackupMade.parse(JSON.parse(line)));
}
