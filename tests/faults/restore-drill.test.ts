// The day the machine is lost: a backup made while tablets were sending, more work after it, then a
// restore elsewhere; what tablets still hold is sent again and fills the gap.
import { createHash } from "node:crypto";
import { readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import pg from "pg";
import { afterAll, beforeAll, expect, test } from "vitest";
import { makeKey } from "../../src/cli/backup/seal.ts";
import { verifyLedgers } from "../../src/features/ledger/verify-ledgers.ts";
import { pathOfFile } from "../../src/features/photos/folder.ts";
import type { TestService } from "../support/app.ts";
import { chanceOf, SEED } from "../support/chance.ts";
import { clusterFolder, operate, startServiceIn, superuserUrl } from "../support/own-cluster.ts";
import { noisePicture, sha256Of } from "../support/photo-sender.ts";
import { addPracticeJob } from "../support/practice-job.ts";
import { sendOps } from "../support/tablet-ops.ts";
import { expectExactlyOnce } from "./exactly-once.ts";
import { BusyTablet } from "./tablet-facts.ts";
import { REPLAY } from "./tally.ts";

/** On a slow machine the backup takes long, and what came in must be sent again below. */
const MEANWHILE_MOST = 15;
const AFTER = 3;
const now = () => new Date("2026-11-25T17:00:00Z");
const chance = chanceOf(SEED);

const folders = [clusterFolder(), clusterFolder(), clusterFolder()] as const;
const [lost, found, safe] = folders;
const file = join(safe, "backup.age");
const key = join(safe, "key");
const pictures: Buffer[] = [];
let tablet: BusyTablet;
let before: number;
let service: TestService;
let behind: pg.Client;

async function sendPhoto(picture: Buffer): Promise<void> {
  const path = `/api/v1/jobs/${tablet.kept[0]?.jobId}/photos/${sha256Of(picture)}`;
  const { installer } = service.firm.people;
  const reply = await service.as(installer).put(path).type("image/jpeg").send(picture);
  expect([200, 201], REPLAY).toContain(reply.status);
}

async function work(times: number, goesOn: () => boolean = () => true): Promise<void> {
  for (let count = 0; goesOn() && count < times; count += 1) {
    const reply = await sendOps(service, [tablet.keep(chance)]);
    expect(reply.status, REPLAY).toBe(200);
    const picture = await noisePicture(3000, chance.between(1, 2 ** 30));
    pictures.push(picture);
    await sendPhoto(picture);
  }
}

async function backUpAtWork(recipient: string): Promise<void> {
  let ended = false;
  const backup = operate(lost, ["backup", file, "--recipient", recipient]).finally(() => {
    ended = true;
  });
  await work(MEANWHILE_MOST, () => !ended);
  expect(await backup).toMatchObject({ code: 0 });
}

beforeAll(async () => {
  const { text, recipient } = await makeKey();
  writeFileSync(key, text, { mode: 0o600 });
  service = await startServiceIn(lost, { now });
  const { firm } = service;
  tablet = new BusyTablet(await addPracticeJob(service), firm.people.installer.id);
  await work(5);
  before = tablet.kept.length;
  await backUpAtWork(recipient);
  expect(tablet.kept.length).toBeGreaterThan(before);
  await work(AFTER);
  await service.stop();
  expect(await operate(found, ["restore", file, "--key-file", key])).toMatchObject({ code: 0 });
  service = await startServiceIn(found, { now, firm });
  behind = new pg.Client({ connectionString: superuserUrl(found, service) });
  await behind.connect();
}, 180_000);
afterAll(async () => {
  await behind.end();
  await service.stop();
  for (const folder of folders) rmSync(folder, { recursive: true, force: true });
});

test(`a restored service has a true beginning of the work, with photos (${REPLAY})`, async () => {
  const { rows } = await behind.query("SELECT body FROM tablet_op ORDER BY device_seq");
  const stored = rows.map(({ body }) => JSON.parse(body));
  expect(stored).toEqual(tablet.kept.slice(0, stored.length));
  expect(stored.length).toBeGreaterThanOrEqual(before);
  expect(stored.length).toBeLessThanOrEqual(tablet.kept.length - AFTER);
  const photos = await behind.query("SELECT firm_id, sha256 FROM photo");
  expect(photos.rowCount).toBeGreaterThanOrEqual(before);
  for (const { firm_id: firmId, sha256 } of photos.rows) {
    const bytes = readFileSync(pathOfFile(found, { firmId, sha256 }));
    expect(createHash("sha256").update(bytes).digest("hex")).toBe(sha256);
  }
});

test(`what tablets still hold fills the gap exactly once (${REPLAY})`, async () => {
  const [{ count }] = (await behind.query("SELECT count(*)::int FROM tablet_op")).rows;
  const reply = await sendOps(service, tablet.kept);
  expect(reply.status, JSON.stringify(reply.body)).toBe(200);
  const repeated = reply.body.results.filter((result: { repeated: boolean }) => result.repeated);
  expect(repeated).toHaveLength(count);
  for (const picture of pictures) await sendPhoto(picture);
  await expectExactlyOnce(behind, tablet.kept[0]?.jobId ?? "", [tablet], REPLAY);
  const kept = await behind.query("SELECT count(*)::int FROM photo");
  expect(kept.rows[0].count).toBe(pictures.length);
  const faults: string[] = [];
  const { firmId } = service.firm;
  const figures = await verifyLedgers(service.db, firmId, (fault) => faults.push(fault));
  expect(faults).toEqual([]);
  expect(figures.entries).toBeGreaterThan(0);
});
