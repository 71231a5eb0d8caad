// Bags with a time stamp of a real service (openssl's), and what happens while it gives none.
// Checked by openssl itself, with the commands of the README in the bag.
import { readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, beforeAll, beforeEach, describe, expect, test } from "vitest";
import { verifyBag } from "../../src/cli/verify-bag.ts";
import { readConfig } from "../../src/config.ts";
import { stampSignatures } from "../../src/runs/time-stamps.ts";
import {
  addProvenJob,
  downloadBag,
  type EvidenceStage,
  startEvidence,
  unpack,
} from "../support/evidence-bag.ts";
import { exportScope } from "../support/evidence-exports.ts";
import { filesIn, missingTools, readmeScript, runReadme } from "../support/evidence-tampering.ts";
import { addPracticeJob, type PracticeJob } from "../support/practice-job.ts";
import {
  hasOpenssl,
  type Mood,
  makeCertificates,
  NO_OPENSSL,
  POLICY,
  type StampService,
  startStampService,
} from "../support/time-stamper.ts";

const TOKEN = "tagmanifest-sha256.txt.p7s.tsr";
const now = (): Date => new Date();
const able = hasOpenssl();
let stage: EvidenceStage;
let stamps: StampService;
let environment: Record<string, string>;
let job: PracticeJob;
let folder: string;

beforeAll(async () => {
  if (!able) return;
  stage = await startEvidence(now, async (within) => {
    stamps = await startStampService(within);
    environment = {
      TIME_STAMP_URL: stamps.url.replace("//", "//alder:se%20cret@"),
      TIME_STAMP_POLICY: POLICY,
      TIME_STAMP_CERTIFICATES: stamps.roots,
    };
    return environment;
  });
  job = await addProvenJob(stage.service);
  folder = await unpack(await downloadBag(stage.service, job.jobId), stage.folder);
});
beforeEach(({ skip }) => {
  skip(!able, NO_OPENSSL);
  stamps.mood = "stamps";
});
afterAll(async () => {
  await stamps?.stop();
  await stage?.stop();
});

const bagOf = async (jobId: string): Promise<string> =>
  unpack(await downloadBag(stage.service, jobId), stage.folder);
const runNow = () => stampSignatures(stage.service.db, readConfig(environment, ""), now());

describe("a bag with a time stamp", () => {
  test("was asked for as RFC 3161, 3.4 says, with the operator's credentials", () => {
    const authorization = `Basic ${Buffer.from("alder:se cret").toString("base64")}`;
    const type = "application/timestamp-query";
    expect(stamps.requests[0]).toEqual({ type, authorization });
    const info = readFileSync(join(folder, "bag-info.txt"), "utf8");
    const { origin } = new URL(stamps.url);
    expect(info).toContain(`Time-Stamp-Service: ${origin}\n`);
    expect(info).not.toContain("cret");
  });

  test.for(["", "root"])("is found whole by the README's commands, roots %j", (given, { skip }) => {
    skip(missingTools().length > 0, `this machine has no ${missingTools().join(", ")}`);
    const roots = given ? stamps.roots : "";
    const { whole, said } = runReadme(readmeScript(folder), folder, "", { roots });
    expect([whole, said]).toEqual([true, expect.stringContaining("Verification: OK")]);
    expect(said).toMatch(/Time stamp: \w{3} +\d+ [\d:]+ \d{4} GMT/);
  });

  test("is found whole by verify, which says what it could trust", async () => {
    const roots = readFileSync(stamps.roots, "utf8");
    const given = await verifyBag(folder, undefined, roots);
    expect(given.faults).toEqual([]);
    const stamp = { by: "stamper of time", policy: POLICY, chain: { ok: true } };
    expect(given.stamp).toMatchObject({ trust: "given", stamp });
    expect(await verifyBag(folder)).toMatchObject({ faults: [], stamp: { trust: "enclosed" } });
  });

  test("is refused by verify and openssl where other roots are trusted", async () => {
    const others = join(stage.folder, "others");
    makeCertificates(others);
    const roots = join(others, "root.pem");
    const { faults } = await verifyBag(folder, undefined, readFileSync(roots, "utf8"));
    expect(faults).toEqual([{ file: TOKEN, problem: expect.stringContaining("does not lead to") }]);
    if (missingTools().length > 0) return;
    expect(runReadme(readmeScript(folder), folder, "", { roots }).whole).toBe(false);
  });

  test("leaves with the same bytes again, and asks the service no second time", async () => {
    const asked = stamps.requests.length;
    const again = await bagOf(job.jobId);
    for (const name of filesIn(folder)) {
      expect(readFileSync(join(again, name)).equals(readFileSync(join(folder, name)))).toBe(true);
    }
    expect(stamps.requests.length).toBe(asked);
  });

  test("is not whole without it, nor with another's", async () => {
    const copy = await bagOf(job.jobId);
    const open = await bagOf((await addPracticeJob(stage.service)).jobId);
    writeFileSync(join(copy, TOKEN), readFileSync(join(open, TOKEN)));
    const seen = async () => (await verifyBag(copy)).faults.map(({ file }) => file);
    expect(await seen()).toContain(TOKEN);
    const whole = (): boolean => runReadme(readmeScript(copy), copy, "").whole;
    if (missingTools().length === 0) expect(whole()).toBe(false);
    rmSync(join(copy, TOKEN));
    expect(await seen()).toEqual([TOKEN]);
    if (missingTools().length === 0) expect(whole()).toBe(false);
  });
});

describe("a service that gives none", () => {
  test.each<[Mood, RegExp]>([
    ["down", /answered with status 503/],
    ["redirects", /answered with status 307/],
    ["chatters", /exceeds 65536 bytes/],
    ["repeats", /stamps something else/],
    ["lies", /stamps something else/],
    ["forgets the nonce", /answers another request/],
  ])("because it is so minded (%s) keeps nobody from the bag, which says so", async (mood, why) => {
    stamps.mood = mood;
    const open = await addPracticeJob(stage.service);
    const bare = await bagOf(open.jobId);
    const { origin: askedOf } = new URL(stamps.url);
    expect(filesIn(bare)).not.toContain(TOKEN);
    expect(await verifyBag(bare)).toMatchObject({ faults: [], stamp: { askedOf } });
    expect((await runNow()).problem).toMatch(why);
    if (missingTools().length > 0) return;
    const { whole, said } = runReadme(readmeScript(bare), bare, "");
    expect([whole, said]).toEqual([true, expect.stringContaining("There is no time stamp")]);
  });

  test("is asked again by the next run, and the next export has the stamp", async () => {
    const { stamped, problem } = await runNow();
    expect([stamped, problem]).toEqual([6, undefined]);
    expect(await runNow()).toEqual({ stamped: 0 });
  });

  test("is told on an export, and a later one of the same record has it", async () => {
    stamps.mood = "down";
    const stampProblem = expect.stringMatching(/gave no time stamp: It answered with status 503/);
    const bare = await exportScope(stage.service, { kind: "fleet" });
    expect(bare).toMatchObject({ state: "ready", stampedAt: null, stampProblem });
    stamps.mood = "stamps";
    const later = await exportScope(stage.service, { kind: "fleet" });
    expect(later).toMatchObject({ state: "ready", stampProblem: null });
    expect(later).toMatchObject({ stampedAt: expect.stringMatching(/^20\d\d-/) });
  });
});

test("without roots of the operator the stamp still checks, and verify says so", async () => {
  const own = await startEvidence(now, async () => ({ TIME_STAMP_URL: stamps.url }));
  const { jobId } = await addPracticeJob(own.service);
  const bare = await unpack(await downloadBag(own.service, jobId), own.folder);
  expect(filesIn(bare)).not.toContain("certs/time-stamp.pem");
  expect(await verifyBag(bare)).toMatchObject({ faults: [], stamp: { trust: "unknown" } });
  if (missingTools().length === 0) {
    const { whole, said } = runReadme(readmeScript(bare), bare, "");
    expect([whole, said]).toEqual([true, expect.stringContaining("Verification: OK")]);
    expect(runReadme(readmeScript(bare), bare, "", { roots: stamps.roots }).whole).toBe(true);
  }
  await own.stop();
});

test.each([
  { TIME_STAMP_CERTIFICATES: "/nowhere/roots.pem" },
  { TIME_STAMP_POLICY: "the best" },
  { TIME_STAMP_URL: "ftp://stamps.example" },
])("a setting that cannot be used is refused at the start: %j", (given) => {
  expect(() => readConfig(given, "")).toThrow(Object.keys(given)[0]);
});
