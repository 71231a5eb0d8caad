import { dirname } from "node:path";
import { fileURLToPath } from "node:url";
import { type Config, readConfig } from "../config.ts";
import { defaultDataFolder } from "../data-folder.ts";
import type { Database } from "../db/client.ts";
import { openDatabase } from "../db/open.ts";
import { readSecrets } from "../secrets.ts";

const PROJECT_FOLDER = dirname(dirname(dirname(fileURLToPath(import.meta.url))));

export const cliConfig = (): Config => readConfig(process.env, defaultDataFolder(PROJECT_FOLDER));

/**
 * Opens the same database as the server would; a running server on the embedded one must be stopped
 * first.
 */
export async function withDatabase(
  work: (db: Database, config: Config) => Promise<void>,
): Promise<void> {
  const config = cliConfig();
  const database = await openDatabase(config, readSecrets(config.dataFolder));
  try {
    await work(database.db, config);
  } finally {
    await database.close();
  }
}
