// Where a restore goes. What is restored is made in a folder inside the data folder, since that may
// be a volume of its own, and moved up when it is whole.
import { mkdir, readdir, rename, rm } from "node:fs/promises";
import { join } from "node:path";
import type { Config } from "../../config.ts";
import { isEmptyDatabase } from "../../db/backup/tables.ts";
import { runningPort } from "../../db/embedded/join.ts";

const STAGE = ".restoring";
/** A volume of its own may bear it. */
const NOBODYS = "lost+found";

export const stageIn = (dataFolder: string): string => join(dataFolder, STAGE);

/** Throws a sentence where something is in the way; nothing is changed. */
export async function requireFree(config: Config, replace: boolean): Promise<void> {
  const { dataFolder } = config;
  const owner = config.DATABASE_OWNER_URL ?? config.DATABASE_URL;
  if (owner && !(await isEmptyDatabase(owner))) {
    throw new Error(
      "The database already holds tables. Make an empty one and name it in DATABASE_URL; the one " +
        "that is there stays as it is.",
    );
  }
  if (runningPort(join(dataFolder, "database")) !== undefined) {
    throw new Error(`A Holdpoint is working on ${dataFolder}. Stop it first, or set DATA_DIR.`);
  }
  const there = await listThere(dataFolder);
  if (there.length === 0 || replace) return;
  throw new Error(
    `${dataFolder} is not empty. Set DATA_DIR to a new folder, or say --replace: what is there ` +
      "now is then moved aside into a folder inside it.",
  );
}

/** An earlier restore that was broken off left nothing that is worth keeping. */
export async function makeStage(dataFolder: string): Promise<string> {
  const stage = stageIn(dataFolder);
  await rm(stage, { recursive: true, force: true });
  // Under root the database runs as another account, which must be able to enter.
  await mkdir(stage, { recursive: true, mode: 0o711 });
  return stage;
}

/** Moves what is there aside, and what was restored into its place; the database comes last. */
export async function takePlace(dataFolder: string, at: Date): Promise<string | undefined> {
  const there = await listThere(dataFolder);
  const aside = join(dataFolder, `before-restore-${at.toISOString().replace(/[^0-9TZ]/g, "")}`);
  if (there.length > 0) await mkdir(aside, { mode: 0o700 });
  for (const name of there) await rename(join(dataFolder, name), join(aside, name));
  const restored = (await readdir(stageIn(dataFolder))).filter((name) => name !== "database");
  for (const name of [...restored, "database"]) {
    await rename(join(stageIn(dataFolder), name), join(dataFolder, name)).catch(unlessGone(name));
  }
  await rm(stageIn(dataFolder), { recursive: true });
  return there.length > 0 ? aside : undefined;
}

/** With a database elsewhere, none is in the folder. */
const unlessGone =
  (name: string) =>
  (error: { code?: unknown }): void => {
    if (name !== "database" || error.code !== "ENOENT") throw error;
  };

async function listThere(dataFolder: string): Promise<string[]> {
  const names = await readdir(dataFolder).catch((error: { code?: unknown }) => {
    if (error.code === "ENOENT") return [];
    throw error;
  });
  const aside = /^before-restore-/;
  return names.filter((name) => ![STAGE, NOBODYS].includes(name) && !aside.test(name));
}
