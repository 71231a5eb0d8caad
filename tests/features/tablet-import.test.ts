// The operator's command as a process of its own, on the database of the test.
import { execFile } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { startService, type TestService } from "../support/app.ts";
import { addPracticeJob } from "../support/practice-job.ts";
import { outcomes, sendOps, testTablet } from "../support/tablet-ops.ts";

const CLI = fileURLToPath(new URL("../../src/cli.ts", import.meta.url));
const folder = mkdtempSync(join(tmpdir(), "holdpoint-outbox-"));
let service: TestService;
beforeAll(async () => {
  service = await startService();
});
afterAll(async () => {
  await service.stop();
  rmSync(folder, { recursive: true, force: true });
});

const run = (...args: string[]): Promise<{ code: number; said: string }> =>
  new Promise((resolve) => {
    const env = { PATH: process.env.PATH, DATABASE_URL: service.ownerUrl, DATA_DIR: folder };
    execFile(process.execPath, [CLI, "tablet", ...args], { env }, (error, stdout, stderr) =>
      resolve({ code: Number(error?.code ?? 0), said: `${stdout}${stderr}` }),
    );
  });

function fileOf(name: string, lines: object[]): string {
  const path = join(folder, name);
  writeFileSync(path, lines.map((line) => `${JSON.stringify(line)}\n`).join(""));
  return path;
}

describe("tablet import", () => {
  test("brings in an outbox file in somebody's name, and is harmless when repeated", async () => {
    const job = await addPracticeJob(service);
    const tablet = testTablet(job.jobId, service.firm.people.installer.id);
    const ops = job.answers().slice(0, 3);
    const kept = ops.map((answer) => tablet.answer(answer));
    const file = fileOf(
      "outbox.jsonl",
      kept.map((op) => ({ op })),
    );
    const first = await run("import", file, "--as", "office@alder.example");
    expect(first).toEqual({ code: 0, said: expect.stringContaining("Operations: 3 stored") });
    const again = await run("import", file, "--as", "office@alder.example");
    expect(again).toEqual({ code: 0, said: expect.stringContaining("3 repeated") });
    expect(outcomes(await sendOps(service, kept))).toEqual(["repeated", "repeated", "repeated"]);
  });

  test("fails with the lines that did not go in", async () => {
    const file = fileOf("odd.jsonl", [{ neither: true }]);
    const { code, said } = await run("import", file, "--as", "office@alder.example");
    expect([code, said]).toEqual([1, expect.stringContaining("line 1: This is neither")]);
  });

  test("fails with a sentence on nobody's address, and on a file that is not there", async () => {
    const file = fileOf("empty.jsonl", []);
    const nobody = await run("import", file, "--as", "nobody@alder.example");
    expect([nobody.code, nobody.said]).toEqual([1, expect.stringContaining("Nobody who may")]);
    const nameless = await run("import", file);
    expect([nameless.code, nameless.said]).toEqual([1, expect.stringContaining("--as ADDRESS")]);
    const missing = join(folder, "missing.jsonl");
    const none = await run("import", missing, "--as", "office@alder.example");
    expect([none.code, none.said]).toEqual([1, expect.stringContaining("missing.jsonl")]);
  });
});
