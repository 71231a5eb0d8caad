// How long the service takes from its process's start to its first "ready", on data that is there
// already (the demo), beside Node alone with the same packages loaded. The first start after a
// change of the source makes Node's compiled copies and is left out.
import { type ChildProcess, spawn } from "node:child_process";
import { once } from "node:events";
import { chmodSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { median } from "./measure.ts";
import { row } from "./row.ts";

const MAIN = fileURLToPath(new URL("../src/main.ts", import.meta.url));
const TURNS = 7;
const folder = mkdtempSync(join(tmpdir(), "holdpoint-start-"));
chmodSync(folder, 0o711);
try {
  await start();
  const times: number[] = [];
  const bare: number[] = [];
  for (let turn = 0; turn < TURNS; turn += 1) {
    times.push(await start());
    bare.push(await bareStart());
  }
  const [own, node] = [median(times), median(bare)];
  const worst = Math.max(...times);
  row(
    "start on existing data, to ready",
    `${(own / 1000).toFixed(2)} s (slowest ${(worst / 1000).toFixed(2)} s)`,
    `Node loading fastify, prisma's client and pg: ${(node / 1000).toFixed(2)} s`,
    `${(own / node).toFixed(1)} ×`,
    "≤ 3 s",
  );
} finally {
  rmSync(folder, { recursive: true, force: true });
}

async function start(): Promise<number> {
  const began = performance.now();
  const child = spawn(process.execPath, [MAIN], {
    env: { PATH: process.env.PATH, DATA_DIR: folder, PORT: "0", LOG_LEVEL: "silent" },
    stdio: ["ignore", "pipe", "inherit"],
  });
  const address = await addressOf(child);
  const ready = await fetch(`${address}/health/ready`);
  const took = performance.now() - began;
  child.kill("SIGTERM");
  await once(child, "exit");
  if (ready.status !== 200) throw new Error(`not ready: ${ready.status}`);
  return took;
}

async function addressOf(child: ChildProcess): Promise<string> {
  let said = "";
  for await (const chunk of child.stdout ?? []) {
    said += chunk;
    const [, address] = /listens on (\S+)/.exec(said) ?? [];
    if (address) {
      child.stdout?.resume();
      return address;
    }
  }
  throw new Error(`it ended before it listened: ${said}`);
}

async function bareStart(): Promise<number> {
  const began = performance.now();
  const loads = `for (const name of ["fastify", "@prisma/client", "pg"]) await import(name)`;
  const child = spawn(process.execPath, ["--input-type=module", "--eval", loads], {
    cwd: fileURLToPath(new URL("../", import.meta.url)),
    stdio: "inherit",
  });
  await once(child, "exit");
  return performance.now() - began;
}
