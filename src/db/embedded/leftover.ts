// A server killed outright leaves its lock file behind, and PostgreSQL trusts any live process with
// the number written there. Only a look at what that process is tells a leftover from a neighbour.
import { execFileSync } from "node:child_process";
import { existsSync, readFileSync, rmSync } from "node:fs";
import { join } from "node:path";
import { setTimeout as pause } from "node:timers/promises";

const STOP_WAIT_MS = 15_000;

/** Clears what a crash left in the data folder; refuses when another Holdpoint is using it. */
export async function clearLeftover(clusterFolder: string, holderFile: string): Promise<void> {
  const lockFile = join(clusterFolder, "postmaster.pid");
  if (!existsSync(lockFile)) return;
  const pid = Number(readFileSync(lockFile, "utf8").split("\n")[0]);
  if (!isPostgres(pid)) {
    rmSync(lockFile, { force: true });
    return;
  }
  if (await endsByItself(pid)) return;
  refuseLiveHolder(holderFile);
  process.kill(pid, "SIGINT");
  for (let waitedMs = 0; isPostgres(pid); waitedMs += 100) {
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
async function endsByItself(pid: number): Promise<boolean> {
  for (let tries = 0; tries < 10; tries += 1) {
    if (!isPostgres(pid)) return true;
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

export const isPostgres = (pid: number): boolean => /postgres/.test(commandOf(pid));

function commandOf(pid: number): string {
  if (!Number.isInteger(pid) || pid <= 0) return "";
  try {
    if (existsSync("/proc/self")) return readFileSync(`/proc/${pid}/cmdline`, "utf8");
    return execFileSync("ps", ["-o", "command=", "-p", String(pid)], { encoding: "utf8" });
  } catch {
    return "";
  }
}
