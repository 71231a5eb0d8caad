import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { isServerOf } from "./leftover.ts";

/**
 * Port of the embedded server that works on this data folder now, whichever process started it;
 * undefined where none does.
 */
export function runningPort(databaseFolder: string): number | undefined {
  const lockFile = join(databaseFolder, "cluster", "postmaster.pid");
  if (!existsSync(lockFile)) return;
  // Process, folder, start, port: PostgreSQL, src/include/utils/pidfile.h.
  const [pid, , , port] = readFileSync(lockFile, "utf8").split("\n");
  return isServerOf(join(databaseFolder, "cluster"), Number(pid)) && Number(port) > 0
    ? Number(port)
    : undefined;
}
