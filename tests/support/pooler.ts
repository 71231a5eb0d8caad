// PgBouncer in transaction mode in front of a server, where the machine has it.
import { type ChildProcess, spawn, spawnSync } from "node:child_process";
import { chmodSync, chownSync, writeFileSync } from "node:fs";
import { createServer } from "node:net";
import { join } from "node:path";
import pg from "pg";
import { accountOptions, serverAccount } from "../../src/db/embedded/account.ts";
import { temporaryFolder } from "./demo.ts";

export const hasPooler = spawnSync("pgbouncer", ["--version"]).status === 0;

export interface Pooler {
  /** The same address, led through the pooler. */
  through(url: string): string;
  stop(): Promise<void>;
}

/** As many connections of the server as `size` for however many come in. */
export async function startPooler(serverUrl: string, size: number): Promise<Pooler> {
  const { hostname, port } = new URL(serverUrl);
  const ownPort = await freePort();
  const folder = temporaryFolder();
  chmodSync(folder, 0o711);
  const file = join(folder, "pgbouncer.ini");
  const users = join(folder, "users.txt");
  writeFileSync(users, '"holdpoint_app" "test"\n');
  writeFileSync(file, settings({ hostname, port, ownPort, size, users }));
  const account = serverAccount();
  for (const path of [file, users]) {
    if (account.uid !== undefined) chownSync(path, account.uid, account.gid ?? account.uid);
  }
  const child = spawn("pgbouncer", [file], {
    stdio: "ignore",
    cwd: "/",
    ...accountOptions(account),
  });
  const through = (url: string): string => {
    const led = new URL(url);
    led.port = String(ownPort);
    return led.toString();
  };
  await untilAnswering(
    through(`postgres://holdpoint_app:test@${hostname}:${port}/postgres`),
    child,
  );
  const ended = new Promise<void>((resolve) => child.once("exit", () => resolve()));
  return {
    through,
    stop: async () => {
      child.kill("SIGINT");
      await ended;
    },
  };
}

interface Settings {
  hostname: string;
  port: string;
  ownPort: number;
  size: number;
  users: string;
}

// The settings that the page about growing tells an operator to make.
const settings = ({ hostname, port, ownPort, size, users }: Settings): string => `[databases]
* = host=${hostname} port=${port}
[pgbouncer]
listen_addr = 127.0.0.1
listen_port = ${ownPort}
unix_socket_dir =
auth_type = plain
auth_file = ${users}
pool_mode = transaction
max_client_conn = 500
default_pool_size = ${size}
`;

async function untilAnswering(url: string, child: ChildProcess): Promise<void> {
  for (let tries = 0; tries < 100 && child.exitCode === null; tries += 1) {
    const client = new pg.Client({ connectionString: url });
    const answered = await client.connect().then(
      () => true,
      () => false,
    );
    await client.end().catch(() => undefined);
    if (answered) return;
    await new Promise((resolve) => setTimeout(resolve, 100));
  }
  throw new Error("PgBouncer does not answer");
}

function freePort(): Promise<number> {
  return new Promise((resolve, reject) => {
    const server = createServer();
    server.once("error", reject);
    server.listen(0, "127.0.0.1", () => {
      const { port } = server.address() as { port: number };
      server.close(() => resolve(port));
    });
  });
}
