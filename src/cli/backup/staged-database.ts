// The database of a restore: first with the tables of the version that made the backup, so that its
// rows fit; then brought up to date and looked through, ledger by ledger and file by file.
import { stat } from "node:fs/promises";
import type { Config } from "../../config.ts";
import { withSnapshot } from "../../db/backup/snapshot.ts";
import { type Migration, migrate, readMigrations } from "../../db/migrate.ts";
import { openDatabase } from "../../db/open.ts";
import { type OwnerAddress, openAsOwner } from "../../db/owner-address.ts";
import { listFirmsForRuns } from "../../features/firms/store.ts";
import { verifyLedgers } from "../../features/ledger/verify-ledgers.ts";
import { readSecrets } from "../../secrets.ts";
import { keptName, pathOf } from "./folder.ts";
import type { Head } from "./format.ts";

/** Throws where this program does not know the tables that the backup has. */
export function requireKnownVersion(head: Head): void {
  migrationsOf(head);
}

function migrationsOf({ migrations, version }: Head): Migration[] {
  const known = new Map(readMigrations().map((migration) => [migration.name, migration]));
  return migrations.map(({ name, checksum }) => {
    const migration = known.get(name);
    if (migration?.checksum === checksum) return migration;
    throw new Error(
      `The backup was made by another version (${version}), whose step ${name} is not known ` +
        "here. Restore it with that version or a later one.",
    );
  });
}

const FAULTS_TOLD = 20;

export class StagedDatabase {
  readonly #config: Config;
  #owner: OwnerAddress | undefined;

  constructor(config: Config) {
    this.#config = config;
  }

  prepare = async (head: Head): Promise<string> => {
    this.#owner = await openAsOwner(this.#config, readSecrets(this.#config.dataFolder));
    await migrate(this.#owner.ownerUrl, migrationsOf(head));
    return this.#owner.ownerUrl;
  };

  close = async (): Promise<void> => {
    await this.#owner?.close();
    this.#owner = undefined;
  };

  /** Brings it up to date, then throws where a ledger is broken or a file is not there. */
  async verify(knownMissing: ReadonlySet<string>): Promise<void> {
    const database = await openDatabase(this.#config, readSecrets(this.#config.dataFolder));
    try {
      const faults: string[] = [];
      for (const firm of await listFirmsForRuns(database.db)) {
        await verifyLedgers(database.db, firm.id, (fault) => faults.push(`${firm.name}: ${fault}`));
      }
      for await (const name of this.#missingFiles(database.ownerUrl)) {
        if (!knownMissing.has(name)) faults.push(`${name} is missing.`);
      }
      if (faults.length > 0) throw new Error(faults.slice(0, FAULTS_TOLD).join("\n"));
    } finally {
      await database.close();
    }
  }

  async *#missingFiles(ownerUrl: string): AsyncGenerator<string> {
    const { dataFolder } = this.#config;
    const missing = await withSnapshot(ownerUrl, async (snapshot) => {
      const names: string[] = [];
      for await (const kept of snapshot.keptFiles()) {
        const name = keptName(dataFolder, kept);
        const file = await stat(pathOf(dataFolder, name)).catch(() => undefined);
        if (!file) names.push(name);
      }
      return names;
    });
    yield* missing;
  }
}
