import { rm } from "node:fs/promises";
import { parseArgs } from "node:util";
import type { Config } from "../config.ts";
import { megabytes, tellingProgress } from "./backup/progress.ts";
import { type Contents, readArchive } from "./backup/read-archive.ts";
import { restoreArchive } from "./backup/restore-backup.ts";
import { type Keys, unseal } from "./backup/seal.ts";
import { requireKnownVersion, StagedDatabase } from "./backup/staged-database.ts";
import { makeStage, requireFree, stageIn, takePlace } from "./backup/target.ts";
import { cliConfig } from "./database.ts";

/** Checks a backup whole before anything is changed, then restores it where nothing is. */
export async function restore(args: string[]): Promise<void> {
  const { values, positionals } = parseArgs({
    args,
    options: {
      "passphrase-file": { type: "string" },
      "key-file": { type: "string" },
      check: { type: "boolean", default: false },
      replace: { type: "boolean", default: false },
    },
    allowPositionals: true,
  });
  const [path, ...more] = positionals;
  if (path === undefined || more.length > 0) throw new Error("Say: restore FILE.");
  const keys: Keys = { passphraseFile: values["passphrase-file"], keyFile: values["key-file"] };
  const config = cliConfig();
  if (!values.check) await requireFree(config, values.replace);
  const contents = await checkWhole(path, keys);
  requireKnownVersion(contents.head);
  tell(path, contents);
  if (values.check) return;
  const aside = await restoreChecked(config, path, keys, contents);
  console.log(`Restored into ${config.dataFolder}. Mails and notices that went out after the`);
  console.log("backup go out again from here: start with RUNS=false to look around first.");
  if (config.PHOTO_BUCKET_URL) {
    console.log("Photos and documents lie there too: bring them into the bucket with the command");
    console.log("photos-to-bucket before the service starts.");
  }
  if (aside) console.log(`What was there before lies in ${aside}.`);
}

async function checkWhole(path: string, keys: Keys): Promise<Contents> {
  let read = 0;
  const quiet = tellingProgress(() => `${megabytes(read)} checked`);
  const counted = async function* (bytes: AsyncIterable<Uint8Array>) {
    for await (const chunk of bytes) {
      read += chunk.length;
      yield chunk;
    }
  };
  return readArchive(counted(await unseal(path, keys)), async () => undefined).finally(quiet);
}

function tell(path: string, { head, end }: Contents): void {
  const rows = Object.values(end.rows).reduce((sum, count) => sum + count, 0);
  console.log(`${path} is whole: made at ${head.madeAt} by version ${head.version},`);
  console.log(`${rows} rows and ${end.files} photos and documents.`);
  if (end.missing.length === 0) return;
  console.log(`${end.missing.length} files were missing already when it was made.`);
}

async function restoreChecked(
  config: Config,
  path: string,
  keys: Keys,
  { end }: Contents,
): Promise<string | undefined> {
  const folder = await makeStage(config.dataFolder);
  const database = new StagedDatabase({ ...config, dataFolder: folder });
  try {
    const place = { folder, openDatabase: database.prepare };
    await restoreArchive(await unseal(path, keys), place).finally(database.close);
    await database.verify(new Set(end.missing));
  } catch (error) {
    await rm(stageIn(config.dataFolder), { recursive: true, force: true });
    if (!config.DATABASE_URL) throw error;
    const why = error instanceof Error ? error.message : String(error);
    throw new Error(
      `${why}\nNothing was put into the data folder. The database may hold empty tables: make it ` +
        "anew before you restore again.",
      { cause: error },
    );
  }
  return takePlace(config.dataFolder, new Date());
}
