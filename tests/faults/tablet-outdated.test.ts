// A store that the page before this one, or the one before that, laid out and filled; its packet is
// old, and the job has changed on the server meanwhile. What waits is stored, or held with the
// reason where the job takes it no longer; none is lost.
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import { inFirm } from "../../src/db/scope.ts";
import type { TabletOp } from "../../src/features/tablet/schemas.ts";
import type { TabletStore } from "../../src/tablet/store/sending.ts";
import { addVisit } from "../support/booked-visits.ts";
import { type Chance, chanceOf, roundsOf, SEED } from "../support/chance.ts";
import { noise, noisePicture, sha256Of } from "../support/photo-sender.ts";
import type { PracticeJob } from "../support/practice-job.ts";
import { sendOps, testTablet } from "../support/tablet-ops.ts";
import { rowsIn } from "../support/work-rows.ts";
import { makeFirstLayout, makeSecondLayout, packetOf } from "../tablet/support/older-layouts.ts";
import { CHANGES } from "./changed-meanwhile.ts";
import { expectExactlyOnce } from "./exactly-once.ts";
import { factOf, keepSome, openPage, setKeeperStage, signInTo } from "./keeper-stage.ts";
import { REPLAY } from "./tally.ts";

const ROUNDS = roundsOf(5);
const LAYOUTS = { "one version old": makeSecondLayout, "two versions old": makeFirstLayout };
const folder = mkdtempSync(join(tmpdir(), "holdpoint-outdated-"));

let stage: Awaited<ReturnType<typeof setKeeperStage>>;
let crewId: string;
let picture: Buffer;
beforeAll(async () => {
  stage = await setKeeperStage({ DATA_DIR: folder });
  crewId = await rowsIn(stage.service).crew("North", [stage.service.firm.people.installer.id]);
  picture = await noisePicture(20_000, SEED);
});
afterAll(async () => {
  await stage.stop();
  rmSync(folder, { recursive: true, force: true });
});

/** What the older page had kept: of that, so many sent and answered, and so many sent at all. */
interface OldRow {
  ops: TabletOp[];
  settledMany: number;
  sentMany: number;
  photo: Buffer;
}

async function oldRow(job: PracticeJob, chance: Chance, round: number): Promise<OldRow> {
  const { id } = stage.service.firm.people.installer;
  const row = testTablet(job.jobId, id);
  const photo = Buffer.concat([picture, noise(16, SEED + round)]);
  const ops: TabletOp[] = [];
  for (let many = chance.between(3, 9); many > 0; many -= 1) {
    const { payload } = factOf(job, chance, "2026-11-24T10:00:00Z");
    ops.push(row.keep(payload, many === 1 ? { photoSha256: [sha256Of(photo)] } : {}));
  }
  const settledMany = chance.between(0, 2);
  const sentMany = settledMany + chance.between(0, 1);
  if (sentMany > 0) await sendOps(stage.service, ops.slice(0, sentMany)).expect(200);
  return { ops, settledMany, sentMany, photo };
}

function photoRow({ photo }: OldRow, { jobId }: PracticeJob) {
  const content = new Uint8Array(photo).buffer;
  const known = { sha256: sha256Of(photo), jobId, bytes: photo.length, content };
  const place = { itemId: "wall_gap", subject: "", mediaType: "image/png" };
  return { ...known, ...place, sentBytes: 0, state: "waiting" };
}

const inFirmOf = <T>(work: Parameters<typeof inFirm<T>>[2]): Promise<T> =>
  inFirm(stage.service.db, stage.service.firm.firmId, work);

async function bookToday({ jobId }: PracticeJob): Promise<string> {
  const at = (hours: number) => new Date(stage.now.getTime() + hours * 3_600_000).toISOString();
  return addVisit(stage.service, { jobId, crewId, startsAt: at(-1), endsAt: at(1) });
}

async function oneTablet(age: keyof typeof LAYOUTS, what: string, chance: Chance, round: number) {
  const job = await stage.job();
  const visitId = await bookToday(job);
  const { tablet, cookies } = stage.tablet();
  tablet.clockMs = stage.now.getTime();
  const old = await oldRow(job, chance, round);
  const packet = packetOf("a1", job.jobId);
  await LAYOUTS[age](tablet.name, { ...old, photo: photoRow(old, job), packet });
  const others = await CHANGES[what]!.make(stage.service, job);
  const { store, sync } = await openPage(tablet, cookies.fetch);
  const kept = [...old.ops, ...(await keepSome({ store, tablet }, job, chance, 2))];
  await signInTo(stage, sync);
  expect((await sync.round()).state, REPLAY).toBe("settled");
  const sent = new Set(kept.slice(0, old.sentMany));
  const isHeld = (op: TabletOp): boolean => !sent.has(op) && CHANGES[what]!.isHeld(op, job);
  await expectSettled(store, job, kept.filter(isHeld).length);
  await stage.tally.add([...kept, ...others]);
  const tablets = [{ deviceId: kept[0]?.deviceId ?? "", kept, isHeld }];
  if (others[0]) tablets.push({ deviceId: others[0].deviceId, kept: others, isHeld: () => false });
  await expectExactlyOnce(stage.tally.client, job.jobId, tablets, REPLAY);
  // Off the list of the tablets to come.
  await inFirmOf((tx) => tx.visit.updateMany({ where: { id: visitId }, data: CANCELLED }));
  await tablet.switchOff();
  return kept.filter(isHeld).length;
}

const CANCELLED = { state: "cancelled" };

async function expectSettled(store: TabletStore, job: PracticeJob, held: number): Promise<void> {
  expect(await store.counts(), REPLAY).toMatchObject({ waiting: 0, held, refused: 0 });
  const state = (await inFirmOf((tx) => tx.job.findFirst({ where: { id: job.jobId } })))?.state;
  expect((await store.packet(job.jobId))?.packet, REPLAY).toMatchObject({
    ...{ schema: "packet/1", version: expect.stringMatching(/^[0-9a-f]{64}$/), job: { state } },
  });
  expect(
    (await store.photos()).map((photo) => [photo.state, photo.problem]),
    REPLAY,
  ).toEqual([["sent", undefined]]);
}

test(`${ROUNDS} stores of older pages lose nothing while their jobs changed (${REPLAY})`, {
  timeout: 30_000 + ROUNDS * 2000,
}, async () => {
  const chance = chanceOf(SEED);
  const figures: Record<string, number> = { held: 0 };
  const changes = Object.keys(CHANGES);
  for (let round = 0; round < ROUNDS; round += 1) {
    const age = round % 2 === 0 ? "one version old" : "two versions old";
    const what = changes[round % changes.length] as string;
    for (const kind of [age, what]) figures[kind] = (figures[kind] ?? 0) + 1;
    figures.held! += await oneTablet(age, what, chance, round);
  }
  stage.tally.tell("older pages and packets", ROUNDS, figures);
});
