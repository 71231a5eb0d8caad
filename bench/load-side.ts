// What goes on beside the load: the operator's notice run, and a look at the instance's memory.
import { spawn } from "node:child_process";
import { once } from "node:events";
import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";

const CLI = fileURLToPath(new URL("../src/cli.ts", import.meta.url));

/** The firmware notice of every firm in a process of its own; how it ended and how long it took. */
export async function runNotice(place: {
  appUrl: string;
  ownerUrl: string;
  folder: string;
}): Promise<string> {
  const began = performance.now();
  const child = spawn(process.execPath, [CLI, "notify"], {
    stdio: "ignore",
    env: {
      PATH: process.env.PATH,
      DATA_DIR: place.folder,
      DATABASE_URL: place.appUrl,
      DATABASE_OWNER_URL: place.ownerUrl,
    },
  });
  const [code] = await once(child, "exit");
  const seconds = ((performance.now() - began) / 1000).toFixed(0);
  return code === 0 ? `done in ${seconds} s` : `FAILED with ${code} after ${seconds} s`;
}

/** Resident set of a process, from Linux's own account of it; 0 elsewhere. */
export function residentMegabytes(pid: number): number {
  try {
    const status = readFileSync(`/proc/${pid}/status`, "utf8");
    return Math.round(Number(/VmRSS:\s+(\d+)/.exec(status)?.[1] ?? 0) / 1024);
  } catch {
    return 0;
  }
}
