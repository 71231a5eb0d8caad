import type { Config } from "../config.ts";
import type { Database } from "../db/client.ts";
import { listFirmsForRuns } from "../features/firms/store.ts";
import { loadDemo } from "./load-demo.ts";
import {
  beginSignInFile,
  finishSignInFile,
  freshSignInLines,
  keptSignInLines,
} from "./sign-in-file.ts";

/** At a start: loads the demo where it is wanted and no firm is; the lines to print about it. */
export async function offerDemo(
  database: { db: Database; embedded: boolean },
  config: Config,
  now: Date,
  say: (line: string) => void,
): Promise<string[]> {
  if (!config.DEMO || !database.embedded) return [];
  const firms = await listFirmsForRuns(database.db);
  if (firms.length > 0) return keptSignInLines(config.dataFolder);
  say(
    "Loading the demo scenario: once, and only because there is no firm yet (DEMO=false: without)",
  );
  return loadAndTell(database.db, config.dataFolder, now);
}

/** On the operator's word, into whichever database, if it is empty; the lines to print. */
export async function loadDemoOnce(db: Database, config: Config, now: Date): Promise<string[]> {
  const [firm] = await listFirmsForRuns(db);
  if (firm) {
    throw new Error(
      `The database has a firm already (${firm.name}). The demo goes into an empty one: ` +
        "name another folder, DATA_DIR=/some/folder, or another DATABASE_URL.",
    );
  }
  return loadAndTell(db, config.dataFolder, now);
}

async function loadAndTell(db: Database, dataFolder: string, now: Date): Promise<string[]> {
  const password = beginSignInFile(dataFolder);
  await loadDemo(db, dataFolder, password, now);
  finishSignInFile(dataFolder);
  return freshSignInLines(dataFolder);
}
