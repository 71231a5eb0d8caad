// The disk under the embedded database fills up while results are submitted. What was answered 201
// is stored, nothing else was said to be; with room again the service works on by itself or after a
// start, what was not kept can be sent again, and the ledger is whole. On a file system of its own
// in memory; left out where the account may not mount one.
import { execFileSync } from "node:child_process";
import { appendFileSync, chmodSync, rmSync, statfsSync } from "node:fs";
import { join } from "node:path";
import { setTimeout as pause } from "node:timers/promises";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { PASSWORD } from "../support/app.ts";
import { clusterFolder, startServiceIn } from "../support/own-cluster.ts";
import { addPracticeJob, type PracticeJob } from "../support/practice-job.ts";
import { checkRelations, lookBehind, readStored } from "./crash-checks.ts";
import { type Credentials, type Submitted, signIn, submit, submitAlong } from "./crash-senders.ts";
import { Killable } from "./killable.ts";

const SIZE = "320m";
const SENT_MOST = 4000;
const BLOCK = Buffer.alloc(64 * 1024, 1);
const folder = clusterFolder();
const filler = join(folder, "filler");

function mounts(): boolean {
  try {
    execFileSync("mount", ["-t", "tmpfs", "-o", `size=${SIZE},mode=711`, "tmpfs", folder], {
      stdio: "ignore",
    });
    return true;
  } catch {
    return false;
  }
}

const isMounted = mounts();

describe.skipIf(!isMounted)("a disk that fills up", () => {
  const service = new Killable(folder);
  let job: PracticeJob;
  let credentials: Credentials;

  beforeAll(async () => {
    chmodSync(folder, 0o711);
    const stage = await startServiceIn(folder);
    job = await addPracticeJob(stage);
    credentials = { email: stage.firm.people.installer.email, password: PASSWORD };
    await stage.stop();
    await service.start();
  });
  afterAll(async () => {
    await service.stop();
    execFileSync("umount", ["--lazy", folder]);
    rmSync(folder, { recursive: true, force: true });
  });

  test("loses nothing that was acknowledged, and all else can be sent again", async () => {
    const token = await signIn(service, credentials);
    const submitted: Submitted = { sent: [], acknowledged: new Set() };
    const unkept = (): number => submitted.sent.length - submitted.acknowledged.size;
    const goesOn = (): boolean => unkept() < 20 && submitted.sent.length < SENT_MOST;
    const submitting = submitAlong(service, token, job, submitted, goesOn);
    while (submitted.acknowledged.size < 5) await pause(5);
    fill();
    await submitting;
    expect(unkept(), "the full disk was noticed").toBeGreaterThanOrEqual(20);
    rmSync(filler);
    if (!(await readyWithin(20_000))) await service.recover("both");
    const again = await signIn(service, credentials);
    const client = await lookBehind(folder);
    const before = await readStored(client, job.jobId);
    expect([...submitted.acknowledged].filter((id) => !before.ids.has(id))).toEqual([]);
    for (const answer of submitted.sent.filter(({ id }) => !submitted.acknowledged.has(id))) {
      expect(await submit(service, again, job.jobId, answer)).toBe(true);
    }
    const after = await readStored(client, job.jobId);
    expect(after.ids).toEqual(new Set(submitted.sent.map(({ id }) => id)));
    expect(after.miscounted).toEqual([]);
    expect(after.isChainWhole).toBe(true);
    expect((await checkRelations(client)).faults).toEqual([]);
    await client.end();
  }, 120_000);

  /** To the last block. */
  function fill(): void {
    const { bavail, bsize } = statfsSync(folder);
    for (let left = bavail * bsize; left > 0; left -= BLOCK.length) {
      try {
        appendFileSync(filler, BLOCK);
      } catch {
        return;
      }
    }
  }

  async function readyWithin(ms: number): Promise<boolean> {
    for (let waited = 0; waited < ms; waited += 200) {
      if (service.process.exitCode !== null) return false;
      if (await service.isReady()) return true;
      await pause(200);
    }
    return false;
  }
});
