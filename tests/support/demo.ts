import { chmodSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { type Config, readConfig } from "../../src/config.ts";
import { type FirmTransaction, inFirm } from "../../src/db/scope.ts";
import { type LoadedDemo, loadDemo } from "../../src/demo/load-demo.ts";
import { type TestDatabase, testDatabase } from "./database.ts";

export interface DemoDatabase extends TestDatabase, LoadedDemo {
  folder: string;
  read<T>(work: (tx: FirmTransaction) => Promise<T>): Promise<T>;
  end(): Promise<void>;
}

export const DEMO_PASSWORD = "a password of this test's own";

/** The scenario in a database and a folder of its own. */
export async function loadedDemo(now: Date): Promise<DemoDatabase> {
  const folder = temporaryFolder();
  const database = await testDatabase();
  const demo = await loadDemo(database.db, folder, DEMO_PASSWORD, now);
  const end = async (): Promise<void> => {
    await database.drop();
    rmSync(folder, { recursive: true });
  };
  const read: DemoDatabase["read"] = (work) => inFirm(database.db, demo.firmId, work);
  return { ...database, ...demo, folder, read, end };
}

/** A data folder of the test's own; the caller removes it. */
export function temporaryFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), "holdpoint-demo-"));
  chmodSync(folder, 0o700);
  return folder;
}

export const configIn = (folder: string, more: Record<string, string> = {}): Config =>
  readConfig({ DATA_DIR: folder, LOG_LEVEL: "silent", ...more }, folder);
