// The operator's command as a process of its own, where there is no database.
import { execFile } from "node:child_process";
import { cpSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import {
  addProvenJob,
  certificatesOf,
  downloadBag,
  type EvidenceStage,
  startEvidence,
  unpack,
} from "../support/evidence-bag.ts";
import { resign, strangersKey } from "../support/evidence-tampering.ts";

const CLI = fileURLToPath(new URL("../../src/cli.ts", import.meta.url));
let stage: EvidenceStage;
let folder: string;
let trusted: string;

beforeAll(async () => {
  stage = await startEvidence(() => new Date("2026-11-25T17:00:00Z"));
  const job = await addProvenJob(stage.service);
  folder = await unpack(await downloadBag(stage.service, job.jobId), stage.folder);
  trusted = await certificatesOf(stage.service);
});
afterAll(() => stage.stop());

describe("the command", () => {
  const run = (...args: string[]): Promise<{ code: number; said: string }> =>
    new Promise((resolve) => {
      // No data folder and no database that could be reached.
      const env = { PATH: process.env.PATH, DATABASE_URL: "postgresql://nobody@127.0.0.1:9/none" };
      execFile(process.execPath, [CLI, "verify", ...args], { env }, (error, stdout, stderr) =>
        resolve({ code: Number(error?.code ?? 0), said: `${stdout}${stderr}` }),
      );
    });

  test("says that a bag is whole and by which key, without a database", async () => {
    const file = join(stage.folder, "firm.pem");
    writeFileSync(file, trusted);
    const { code, said } = await run(`${folder}.zip`, "--certificates", file);
    expect([code, said]).toEqual([0, expect.stringContaining("is whole")]);
    const alone = await run(folder);
    expect([alone.code, alone.said]).toEqual([0, expect.stringContaining("Whose key that is")]);
  }, 180_000);

  test("ends with 1, the file and what is wrong with it", async () => {
    const copy = `${folder}-cut`;
    cpSync(folder, copy, { recursive: true });
    writeFileSync(join(copy, "data/readings.csv"), "nothing\n");
    const { code, said } = await run(copy);
    expect([code, said]).toEqual([
      1,
      expect.stringContaining("data/readings.csv: It does not have the checksum"),
    ]);
  }, 180_000);

  test("ends with 1 on another's key, and on a ZIP file that is cut off", async () => {
    const copy = `${folder}-stranger`;
    cpSync(folder, copy, { recursive: true });
    await resign(copy, await strangersKey());
    const stranger = await run(copy, "--certificates", join(stage.folder, "firm.pem"));
    expect([stranger.code, stranger.said]).toEqual([
      1,
      expect.stringContaining("which is none of those given"),
    ]);
    const cut = join(stage.folder, "cut.zip");
    writeFileSync(cut, readFileSync(`${folder}.zip`).subarray(0, -1));
    const short = await run(cut);
    expect([short.code, short.said]).toEqual([1, expect.stringContaining("no whole ZIP file")]);
  }, 180_000);
});
