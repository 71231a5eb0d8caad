// `npm start` as it meets the world: a path with spaces, everything killed at once, started twice,
// a port that is taken. The real process each time, on an embedded database of its own.
import { type ChildProcess, execFileSync, spawn } from "node:child_process";
import { once } from "node:events";
import { chmodSync, existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync } from "node:fs";
import { createServer } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { setTimeout as pause } from "node:timers/promises";
import { fileURLToPath } from "node:url";
import { afterAll, afterEach, describe, expect, test } from "vitest";

const MAIN = fileURLToPath(new URL("../../src/main.ts", import.meta.url));
const root = mkdtempSync(join(tmpdir(), "holdpoint start "));
chmodSync(root, 0o711);
const running = new Set<ChildProcess>();

afterEach(async () => {
  for (const child of running) {
    child.kill("SIGTERM");
    await once(child, "exit");
  }
});
afterAll(() => rmSync(root, { recursive: true, force: true }));

interface Started {
  child: ChildProcess;
  address: string;
}

function launch(dataFolder: string, environment: Record<string, string> = {}): ChildProcess {
  mkdirSync(dataFolder, { recursive: true });
  const child = spawn(process.execPath, [MAIN], {
    cwd: tmpdir(),
    env: {
      PATH: process.env.PATH,
      DATA_DIR: dataFolder,
      PORT: "0",
      DEMO: "false",
      LOG_LEVEL: "silent",
      ...environment,
    },
  });
  running.add(child);
  child.once("exit", () => running.delete(child));
  return child;
}

async function start(dataFolder: string): Promise<Started> {
  const child = launch(dataFolder);
  const said = await outputUntil(child, /listens on (http:\S+)/);
  return { child, address: /listens on (http:\S+)/.exec(said)?.[1] ?? "" };
}

async function outputUntil(child: ChildProcess, wanted: RegExp): Promise<string> {
  let said = "";
  return new Promise((resolve, reject) => {
    const read = (chunk: Buffer): void => {
      said += chunk;
      if (wanted.test(said)) resolve(said);
    };
    child.stdout?.on("data", read);
    child.stderr?.on("data", read);
    child.once("exit", (code) => reject(new Error(`ended with ${code}: ${said}`)));
  });
}

/** The process, its output and its exit code once it has ended by itself. */
async function ended(child: ChildProcess): Promise<{ code: number; said: string }> {
  let said = "";
  child.stdout?.on("data", (chunk) => (said += chunk));
  child.stderr?.on("data", (chunk) => (said += chunk));
  const [code] = await once(child, "close");
  return { code, said };
}

function postmasterPid(dataFolder: string): number {
  const file = join(dataFolder, "database", "cluster", "postmaster.pid");
  return existsSync(file) ? Number(readFileSync(file, "utf8").split("\n")[0]) : 0;
}

function isAlive(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return !/\) Z /.test(readFileSync(`/proc/${pid}/stat`, "utf8"));
  } catch {
    return false;
  }
}

const ready = async (address: string) => (await fetch(`${address}/health/ready`)).status;

describe("a start", () => {
  test("works in a folder with spaces, and stopping leaves no database behind", async () => {
    const folder = join(root, "first folder");
    const { child, address } = await start(folder);
    expect(await ready(address)).toBe(200);
    const database = postmasterPid(folder);
    expect(isAlive(database)).toBe(true);
    child.kill("SIGTERM");
    const [code] = await once(child, "exit");
    expect(code).toBe(0);
    expect(isAlive(database)).toBe(false);
  });

  test("works again after everything was killed at once, with what was stored still there", async () => {
    const folder = join(root, "killed folder");
    const { child } = await start(folder);
    const database = postmasterPid(folder);
    process.kill(database, "SIGKILL");
    child.kill("SIGKILL");
    await once(child, "exit");
    expect(existsSync(join(folder, "database", "cluster", "postmaster.pid"))).toBe(true);
    const again = await start(folder);
    expect(await ready(again.address)).toBe(200);
  });

  test("of a process killed alone takes its database with it", async () => {
    const folder = join(root, "orphan folder");
    const { child } = await start(folder);
    const database = postmasterPid(folder);
    child.kill("SIGKILL");
    await once(child, "exit");
    for (let waitedMs = 0; isAlive(database) && waitedMs < 10_000; waitedMs += 50) await pause(50);
    expect(isAlive(database)).toBe(false);
  });

  test("on a folder in use is refused with a sentence, and the first goes on", async () => {
    const folder = join(root, "shared folder");
    const { address } = await start(folder);
    const { code, said } = await ended(launch(folder));
    expect(code).toBe(1);
    expect(said).toContain("Another Holdpoint");
    expect(await ready(address)).toBe(200);
  });

  test("on a port that is taken is refused with a sentence that names the way out", async () => {
    const blocker = createServer().listen(0, "127.0.0.1");
    await once(blocker, "listening");
    const { port } = blocker.address() as { port: number };
    const { code, said } = await ended(launch(join(root, "port folder"), { PORT: String(port) }));
    blocker.close();
    expect(code).toBe(1);
    expect(said).toContain(`Port ${port} is taken by another program`);
    expect(said).not.toContain("    at ");
  });

  test("with a setting that cannot be used names it", async () => {
    const { code, said } = await ended(
      launch(join(root, "bad setting"), { PORT: "many", SMTP_URL: "nonsense" }),
    );
    expect(code).toBe(1);
    expect(said).toMatch(/PORT: .+SMTP_URL: /);
  });

  test("on a database that does not keep what it confirms is refused", async () => {
    const folder = join(root, "not durable");
    const first = await start(folder);
    first.child.kill("SIGTERM");
    await once(first.child, "exit");
    execFileSync("sh", [
      "-c",
      'echo "fsync = off" >> "$0"',
      join(folder, "database", "cluster", "postgresql.conf"),
    ]);
    const { code, said } = await ended(launch(folder));
    expect(code).toBe(1);
    expect(said).toContain("fsync = off");
  });
});
