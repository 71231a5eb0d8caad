// The tablet's sending against the real service: a visit's packet comes down, its photo goes up.
import { createHash } from "node:crypto";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import type { NewOp } from "../../src/tablet/contract.ts";
import { PASSWORD, startService, type TestService } from "../support/app.ts";
import { addVisit } from "../support/booked-visits.ts";
import { noisePicture } from "../support/photo-sender.ts";
import { addPracticeJob, type PracticeJob } from "../support/practice-job.ts";
import { rowsIn } from "../support/work-rows.ts";
import { CookieFetch } from "./support/cookie-fetch.ts";
import { testSync } from "./support/test-sync.ts";
import { photoOf, snag, TestTablet } from "./support/test-tablet.ts";

const NOW = new Date("2026-11-25T09:00:00Z");
const folder = mkdtempSync(join(tmpdir(), "holdpoint-sync-"));
let service: TestService;
let job: PracticeJob;
let tablet: TestTablet;
let cookies: CookieFetch;

beforeAll(async () => {
  service = await startService({ now: () => NOW, environment: { DATA_DIR: folder } });
  cookies = new CookieFetch(await service.app.listen({ port: 0, host: "127.0.0.1" }));
  job = await addPracticeJob(service);
  const { id } = service.firm.people.installer;
  const crewId = await rowsIn(service).crew("North", [id]);
  const span = { startsAt: "2026-11-25T08:30:00Z", endsAt: "2026-11-25T16:00:00Z" };
  await addVisit(service, { jobId: job.jobId, crewId, ...span });
  tablet = new TestTablet(service.firm.firmId, id);
});
afterAll(async () => {
  await tablet.switchOff();
  await service.stop();
  rmSync(folder, { recursive: true, force: true });
});

test("a day: the packet, a whole visit, its photo, and the packet with all of it", async () => {
  const store = await tablet.open();
  const sync = testSync(tablet, store, cookies.fetch);
  expect((await sync.round()).state).toBe("sign-in");
  const { email, id } = service.firm.people.installer;
  const signedIn = await sync.signIn(email, PASSWORD);
  expect(signedIn).toMatchObject({ ok: true, profile: { personId: id, roles: ["installer"] } });
  expect(await sync.round()).toMatchObject({ state: "settled" });
  const held = await store.packet(job.jobId);
  expect(held?.visit).toMatchObject({ jobId: job.jobId, startsAt: "2026-11-25T08:30:00.000Z" });
  expect(held?.packet.answers).toEqual([]);

  const picture = await noisePicture(700_000, 7);
  for (const { id: _id, photos: _photos, ...answer } of job.answers()) {
    const payload = { kind: "answer", answer } as NewOp["payload"];
    const photos = answer.itemId === "wall_gap" ? [photoOf(new Uint8Array(picture))] : [];
    await store.keep({ jobId: job.jobId, payload, photos });
  }
  await store.keep(snag(job.jobId));
  expect(await sync.round()).toMatchObject({ state: "settled" });
  expect(await store.counts()).toMatchObject({ waiting: 0, held: 0, refused: 0, photosWaiting: 0 });
  const sha256 = createHash("sha256").update(picture).digest("hex");
  const manager = service.as(service.firm.people.manager);
  const photos = await manager.get(`/api/v1/jobs/${job.jobId}/photos`);
  expect(photos.body.items).toMatchObject([{ sha256, bytes: picture.length, itemId: "wall_gap" }]);
  const after = await store.packet(job.jobId);
  expect(after?.packet.answers).toHaveLength(job.answers().length);
  expect(after?.packet.photosHeld).toEqual([sha256]);

  const closing = { kind: "close-out", seenOpen: true, seenBlockers: 0 } as const;
  await store.keep({ jobId: job.jobId, payload: closing, photos: [] });
  await sync.round();
  const ops = await store.ops(job.jobId);
  expect(ops.at(-1)?.result).toMatchObject({ outcome: "stored", closed: true, blockers: 0 });
  expect((await store.packet(job.jobId))?.packet.job.state).toBe("closed");
});

test("a photo is sent through broken connections and is there once, whole", async () => {
  const other = await addPracticeJob(service);
  const store = await tablet.open();
  let requests = 0;
  const broken = async (path: string, init: RequestInit): Promise<Response> => {
    const isPiece = init.method === "PATCH";
    if (isPiece) requests += 1;
    if (isPiece && requests % 2 === 1) {
      // The server has it, and the tablet does not hear of it.
      await cookies.fetch(path, init);
      throw new TypeError("fetch failed");
    }
    return cookies.fetch(path, init);
  };
  const picture = await noisePicture(1_200_000, 8);
  await store.keep({ ...snag(other.jobId), photos: [photoOf(new Uint8Array(picture))] });
  const sync = testSync(tablet, store, broken);
  const states: string[] = [];
  while (states.at(-1) !== "settled" && states.length < 20) {
    states.push((await sync.round()).state);
  }
  expect(states.at(-1)).toBe("settled");
  expect(states.filter((state) => state === "offline").length).toBeGreaterThan(1);
  const manager = service.as(service.firm.people.manager);
  const photos = await manager.get(`/api/v1/jobs/${other.jobId}/photos`);
  const sha256 = createHash("sha256").update(picture).digest("hex");
  expect(photos.body.items).toMatchObject([{ sha256, bytes: picture.length }]);
});
