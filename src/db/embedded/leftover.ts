// A server killed outright leaves its lock file behind, and PostgreSQL trusts any live process with
// the number written there. Only a look at what that process is tells a leftover from a neighbour.
import { execFileSync } from "node:child_process";
import { existsSync, readFileSync, readlinkSync, realpathSync, rmSync } from "node:fs";
import { join } from "node:path";
import { setTimeout as pause } from "node:timers/promises";

const STOP_WAIT_MS = 15_000;

/** Clears what a crash left in the data folder; refuses when another Holdpoint is using it. */
export async function clearLeftover(clusterFolder: string, holderFile: string): Promise<void> {
  const lockFile = join(clusterFolder, "postmaster.pid");
  if (!existsSync(lockFile)) return;
  const pid = Number(readFileSync(lockFile, "utf8").split("\n")[0]);
  const isServer = (): boolean => isServerOf(clusterFolder, pid);
  if (!isServer()) {
    rmSync(lockFile, { force: true });
    return;
  }
  if (await endsByItself(isServer)) return;
  refuseLiveHolder(holderFile);
  process.kill(pid, "SIGINT");
  for (let waitedMs = 0; isServer(); waitedMs += 100) {
    if (waitedMs >= STOP_WAIT_MS) {
      throw new Error(
        `A PostgreSQL left over from an earlier start (process ${pid}) does not stop. ` +
          `End it by hand (kill -INT ${pid}) and start again.`,
      );
    }
    await pause(100);
  }
}

/** An orphan notices within moments that its starter is gone, so it gets that long first. */
async function endsByItself(isServer: () => boolean): Promise<boolean> {
  for (let tries = 0; tries < 10; tries += 1) {
    if (!isServer()) return true;
    await pause(100);
  }
  return false;
}

function refuseLiveHolder(holderFile: string): void {
  if (!existsSync(holderFile)) return;
  const holder = Number(readFileSync(holderFile, "utf8"));
  if (!/\bnode\b/.test(commandOf(holder))) return;
  throw new Error(
    `Another Holdpoint (process ${holder}) is using this data folder. Stop it first, or set DATA_DIR ` +
      "to another folder.",
  );
}

/**
 * Whether the process is a PostgreSQL on this folder. Numbers are used again, by a neighbour's
 * PostgreSQL too; one works in its own folder.
 */
export function isServerOf(clusterFolder: string, pid: number): boolean {
  if (!/postgres/.test(commandOf(pid))) return false;
  if (!existsSync("/proc/self")) return true;
  try {
    return readlinkSync(`/proc/${pid}/cwd`) === realpathSync(clusterFolder);
  } catch {
    return false;
  }
}

/**
 * Removes the lock of a server that is gone. Whether a process of it is still ending PostgreSQL
 * finds out by its shared memory, with or without this file.
 */
export function dropStaleLock(clusterFolder: string): void {
  const lockFile = join(clusterFolder, "postmaster.pid");
  if (!existsSync(lockFile)) return;
  const pid = Number(readFileSync(lockFile, "utf8").split("\n")[0]);
  if (!isServerOf(clusterFolder, pid)) rmSync(lockFile, { force: true });
}

function commandOf(pid: number): string {
  if (!Number.isInteger(pid) || pid <= 0) return "";
  try {
    if (existsSync("/proc/self")) return readFileSync(`/proc/${pid}/cmdline`, "utf8");
    return execFileSync("ps", ["-o", "command=", "-p", String(pid)], { encoding: "utf8" });
  } catch {
    return "";
  }
}
