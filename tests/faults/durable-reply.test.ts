// Seen from the operating system: the log of the database reaches the disk before the reply that
// says "stored" leaves. One tracer follows the service and the database's processes, so that its
// lines stand in the order in which things happened. Where strace is installed and may trace.
import { spawn, spawnSync } from "node:child_process";
import { once } from "node:events";
import { readdirSync, readFileSync, rmSync } from "node:fs";
import { join } from "node:path";
import { setTimeout as pause } from "node:timers/promises";
import { afterAll, beforeAll, expect, test } from "vitest";
import { PASSWORD } from "../support/app.ts";
import { clusterFolder, startServiceIn } from "../support/own-cluster.ts";
import { addPracticeJob, type PracticeJob } from "../support/practice-job.ts";
import { signIn, submit } from "./crash-senders.ts";
import { Killable } from "./killable.ts";

const mayTrace = spawnSync("strace", ["-f", "-e", "trace=fdatasync", "true"]).status === 0;
const folder = clusterFolder();
const service = new Killable(folder);
let job: PracticeJob;
let email: string;

beforeAll(async () => {
  if (!mayTrace) return;
  const stage = await startServiceIn(folder);
  job = await addPracticeJob(stage);
  email = stage.firm.people.installer.email;
  await stage.stop();
  await service.start();
}, 60_000);
afterAll(async () => {
  await service.stop();
  rmSync(folder, { recursive: true, force: true });
});

/** The database's first process and those it has started. */
function databasePids(): number[] {
  const first = service.databasePid();
  const children = readdirSync("/proc")
    .filter((name) => /^\d+$/.test(name))
    .filter((pid) => parentOf(pid) === first);
  return [first, ...children.map(Number)];
}

function parentOf(pid: string): number {
  try {
    return Number(/\) \S (\d+)/.exec(readFileSync(`/proc/${pid}/stat`, "utf8"))?.[1]);
  } catch {
    return 0;
  }
}

async function traced(work: () => Promise<void>): Promise<string[]> {
  const log = join(folder, "trace");
  const pids = [service.pid, ...databasePids()].flatMap((pid) => ["-p", String(pid)]);
  const calls = "trace=fdatasync,fsync,read,write,writev";
  const tracer = spawn("strace", ["-f", "-y", "-s", "40", "-e", calls, "-o", log, ...pids]);
  let said = "";
  tracer.stderr.on("data", (chunk) => (said += chunk));
  while (said.split(" attached").length - 1 < pids.length / 2) await pause(20);
  await work();
  tracer.kill("SIGINT");
  await once(tracer, "exit");
  return readFileSync(log, "utf8").split("\n");
}

const ASKED = /read\(.*"POST \/api\/v1\/jobs\//;
const REPLIED = /writev?\(.*HTTP\/1\.1 201 /;
/** A call that another's line interrupts is finished in a line of its own. */
const SYNCED =
  /(?:fdatasync|fsync)\(\d+<[^>]*\/pg_wal\/[^>]*>\)\s+= 0|<\.\.\. f(?:data)?sync resumed>\)\s+= 0/;

test.runIf(mayTrace)(
  "each 201 leaves after the database's log has reached the disk",
  {
    timeout: 90_000,
  },
  async () => {
    const token = await signIn(service, { email, password: PASSWORD });
    const answers = [...job.answers(), ...job.answers()];
    const lines = await traced(async () => {
      for (const answer of answers) {
        expect(await submit(service, token, job.jobId, answer)).toBe(true);
      }
    });
    const replies = lines.flatMap((line, at) => (REPLIED.test(line) ? [at] : []));
    expect(replies).toHaveLength(answers.length);
    for (const at of replies) {
      const asked = lines.findLastIndex((line, place) => place < at && ASKED.test(line));
      const between = lines.slice(asked, at);
      expect(asked).toBeGreaterThanOrEqual(0);
      expect(between.filter((line) => SYNCED.test(line)).length).toBeGreaterThan(0);
    }
  },
);
