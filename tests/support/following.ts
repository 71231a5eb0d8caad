// A second server that follows the first by streaming replication: its folder is copied between
// the start and the end of a backup, as PostgreSQL's documentation of base backups has it.
import {
  chmodSync,
  chownSync,
  cpSync,
  mkdirSync,
  readdirSync,
  rmSync,
  writeFileSync,
} from "node:fs";
import { join } from "node:path";
import pg from "pg";
import { serverAccount } from "../../src/db/embedded/account.ts";
import { type RunningCluster, startCluster } from "../../src/db/embedded/cluster.ts";

export async function startFollower(
  first: RunningCluster,
  firstFolder: string,
  folder: string,
  password: string,
): Promise<RunningCluster> {
  const client = new pg.Client({ connectionString: `${first.superuserUrl}/postgres` });
  await client.connect();
  await client.query("SELECT pg_backup_start('follower', true)");
  const to = join(folder, "cluster");
  mkdirSync(folder, { recursive: true });
  cpSync(join(firstFolder, "cluster"), to, { recursive: true });
  const { rows } = await client.query("SELECT labelfile FROM pg_backup_stop(false)");
  await client.end();
  rmSync(join(to, "postmaster.pid"), { force: true });
  rmSync(join(to, "postmaster.opts"), { force: true });
  writeFileSync(join(to, "backup_label"), rows[0].labelfile);
  writeFileSync(join(to, "standby.signal"), "");
  chmodSync(to, 0o700);
  giveTo(serverAccount(), to);
  const { port } = first;
  const settings = [
    `primary_conninfo=host=127.0.0.1 port=${port} user=postgres password=${password}`,
    "hot_standby=on",
  ];
  return startCluster({ folder, superuserPassword: password, settings });
}

function giveTo({ uid, gid }: { uid?: number; gid?: number }, folder: string): void {
  if (uid === undefined) return;
  chownSync(folder, uid, gid ?? uid);
  for (const entry of readdirSync(folder, { withFileTypes: true, recursive: true })) {
    chownSync(join(entry.parentPath, entry.name), uid, gid ?? uid);
  }
}
