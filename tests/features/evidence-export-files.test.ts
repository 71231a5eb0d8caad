// How an export is made and kept: on the ledger, in parts, by whichever worker lives, for a while.
import { createHash } from "node:crypto";
import { existsSync, rmSync } from "node:fs";
import { join } from "node:path";
import { afterAll, beforeAll, beforeEach, describe, expect, test } from "vitest";
import { readConfig } from "../../src/config.ts";
import { inFirm } from "../../src/db/scope.ts";
import { beginExport } from "../../src/features/evidence-exports/begin-export.ts";
import { claimExport } from "../../src/features/evidence-exports/store.ts";
import { purgeEvidenceExports, resumeEvidenceExports } from "../../src/runs/evidence-exports.ts";
import { addProvenJob, type EvidenceStage, startEvidence } from "../support/evidence-bag.ts";
import { exportScope, fetchExport, whenMade } from "../support/evidence-exports.ts";
import { addPracticeJob, type PracticeJob } from "../support/practice-job.ts";
import { ledgerOf } from "../support/reading.ts";

const NOW = new Date("2026-11-25T17:00:00Z");
const LATER = new Date("2026-12-03T17:00:00Z");
const PATH = "/api/v1/evidence-exports";
let now = NOW;
let stage: EvidenceStage;
let bare: PracticeJob;

beforeAll(async () => {
  stage = await startEvidence(() => now);
  await addProvenJob(stage.service);
  bare = await addPracticeJob(stage.service);
});
beforeEach(() => {
  now = NOW;
});
afterAll(() => stage.stop());

const as = (role: "auditor" | "office" | "installer" | "manager") =>
  stage.service.as(stage.service.firm.people[role]);
const sha256 = (bytes: Buffer): string => createHash("sha256").update(bytes).digest("hex");
const exportsOn = async (jobId: string) =>
  (await ledgerOf(stage.service, jobId)).filter(({ kind }) => kind === "evidence.exported");

describe("an export", () => {
  test("is on the ledger of each job in it, and in the list of exports", async () => {
    const before = (await exportsOn(bare.jobId)).length;
    const made = await exportScope(stage.service, { kind: "fleet" });
    expect(made).toMatchObject({ state: "ready", jobsDone: 2, jobsTotal: 2, problem: null });
    const { bytes } = await fetchExport(stage.service, made.id);
    expect([bytes.length, sha256(bytes)]).toEqual([made.bytes, made.sha256]);
    const own = (await exportsOn(bare.jobId)).slice(before);
    expect(own).toMatchObject([{ body: { exportId: made.id } }]);
    const { items } = (await as("manager").get("/api/v1/exports?list=evidence")).body;
    expect(items[0]).toMatchObject({ filter: { exportId: made.id } });
  });

  test("of the same record has the same bytes whenever it is made", async () => {
    const digests = new Set<string>();
    for (let round = 0; round < 4; round += 1) {
      now = new Date(NOW.getTime() + round * 3_600_000);
      digests.add((await exportScope(stage.service, { kind: "fleet" })).sha256);
    }
    expect(digests.size).toBe(1);
  });

  test("is fetched in parts, and from the start where the file is another", async () => {
    const { id, bytes: size, sha256: sum } = await exportScope(stage.service, { kind: "fleet" });
    const etag = `"${sum}"`;
    const half = Math.floor(size / 2);
    const first = await fetchExport(stage.service, id, { range: `bytes=0-${half - 1}` });
    const rest = await fetchExport(stage.service, id, {
      ...{ range: `bytes=${half}-`, "if-range": etag },
    });
    expect([first.status, rest.status, rest.headers.etag]).toEqual([206, 206, etag]);
    expect(rest.headers["content-range"]).toBe(`bytes ${half}-${size - 1}/${size}`);
    expect(sha256(Buffer.concat([first.bytes, rest.bytes]))).toBe(sum);
    const tail = await fetchExport(stage.service, id, { range: "bytes=-22" });
    // PKWARE APPNOTE, 4.3.16: the end record begins with PK\5\6 and has 22 bytes, from memory.
    expect(tail.bytes.toString("latin1").startsWith("PK\u0005\u0006")).toBe(true);
    const other = await fetchExport(stage.service, id, {
      ...{ range: `bytes=${half}-`, "if-range": '"another"' },
    });
    expect([other.status, other.bytes.length]).toEqual([200, size]);
    const beyond = await fetchExport(stage.service, id, { range: `bytes=${size}-` });
    expect([beyond.status, beyond.headers["content-range"]]).toEqual([416, `bytes */${size}`]);
  });

  test("whose worker died is made by the next run: same bytes, one ledger entry", async () => {
    const { db, firm } = stage.service;
    const { id: personId } = firm.people.auditor;
    const made = await exportScope(stage.service, { kind: "fleet" });
    const row = await inFirm(db, firm.firmId, (tx) =>
      beginExport(tx, { kind: "fleet" }, personId, NOW),
    );
    const lease = { exportId: row.id, workerId: personId };
    await inFirm(db, firm.firmId, (tx) => claimExport(tx, lease, NOW, LATER));
    const config = readConfig({ PUBLIC_URL: "https://alder.example" }, join(stage.folder, "data"));
    expect(await resumeEvidenceExports(db, config, () => NOW)).toBe(0);
    const after = new Date(LATER.getTime() + 1);
    expect(await resumeEvidenceExports(db, config, () => after)).toBe(1);
    const again = await whenMade(stage.service, row.id);
    expect([again.state, again.sha256]).toEqual(["ready", made.sha256]);
    const own = (await exportsOn(bare.jobId)).map(({ body }) => body as { exportId: string });
    expect(own.filter(({ exportId }) => exportId === row.id)).toHaveLength(1);
  });

  test("goes after seven days; that it was made stays", async () => {
    const { db, firm } = stage.service;
    const { id } = await exportScope(stage.service, { kind: "fleet" });
    const dataFolder = join(stage.folder, "data");
    const file = join(dataFolder, "evidence", firm.firmId, `${id}.zip`);
    expect(await purgeEvidenceExports(db, { dataFolder }, new Date("2026-12-02T16:59:00Z"))).toBe(
      0,
    );
    expect(existsSync(file)).toBe(true);
    expect(await purgeEvidenceExports(db, { dataFolder }, LATER)).toBeGreaterThan(0);
    expect(existsSync(file)).toBe(false);
    const reply = await as("auditor").get(`${PATH}/${id}/bag`);
    expect([reply.status, reply.body.detail]).toEqual([409, expect.stringContaining("seven days")]);
  });
});

describe("an export that cannot be made", () => {
  test("tells in a sentence which photo is gone", async () => {
    const broken = await addProvenJob(stage.service);
    rmSync(join(stage.folder, "data/photos"), { recursive: true });
    const made = await exportScope(stage.service, { kind: "site", siteId: broken.siteId });
    expect(made).toMatchObject({ state: "failed", problem: expect.stringContaining("photo") });
  });
});
