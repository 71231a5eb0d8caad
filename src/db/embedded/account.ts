import { spawnSync } from "node:child_process";
import { readFileSync } from "node:fs";
import { userInfo } from "node:os";

/** The operating-system account that the embedded server runs as; ids are set only under root. */
export interface ServerAccount {
  name: string;
  uid?: number;
  gid?: number;
}

/**
 * PostgreSQL refuses root: under root it runs as `postgres`, created if need be, else as `nobody`.
 */
export function serverAccount(): ServerAccount {
  const current = userInfo();
  if (current.uid !== 0) return { name: current.username };
  const existing = lookUp("postgres");
  if (existing) return existing;
  spawnSync("useradd", ["--system", "--no-create-home", "postgres"]);
  const account = lookUp("postgres") ?? lookUp("nobody");
  if (account) return account;
  throw new Error(
    "PostgreSQL does not run as root, and this machine has neither an account postgres nor nobody. " +
      "Start Holdpoint as an ordinary user, or set DATABASE_URL to a PostgreSQL of your own.",
  );
}

export function accountOptions(account: ServerAccount): { uid?: number; gid?: number } {
  return account.uid === undefined ? {} : { uid: account.uid, gid: account.gid };
}

/** Whether the account may enter the folder: every part of the path must be open to it. */
export function canReach(folder: string, account: ServerAccount): boolean {
  if (account.uid === undefined) return true;
  const probe = spawnSync("/bin/sh", ["-c", 'cd "$0"', folder], {
    cwd: "/",
    ...accountOptions(account),
  });
  return probe.status === 0;
}

function lookUp(name: string): ServerAccount | undefined {
  const line = readFileSync("/etc/passwd", "utf8")
    .split("\n")
    .find((entry) => entry.startsWith(`${name}:`));
  const [, , uid, gid] = line?.split(":") ?? [];
  return uid && gid ? { name, uid: Number(uid), gid: Number(gid) } : undefined;
}
