// Photos and documents in a bucket that several instances share, over real HTTP with signatures
// that the other side checks by itself.
import { createHash, randomBytes } from "node:crypto";
import { existsSync, mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import sharp from "sharp";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { readConfig } from "../../src/config.ts";
import { fileStorage } from "../../src/features/photos/files.ts";
import { startService, type TestService } from "../support/app.ts";
import { addProvenJob, downloadBag, sendPhoto, unpack } from "../support/evidence-bag.ts";
import { type ObjectStorage, startObjectStorage } from "../support/object-storage.ts";
import { addPracticeJob } from "../support/practice-job.ts";

let storage: ObjectStorage;
let one: TestService;
let other: TestService;
const folder = mkdtempSync(join(tmpdir(), "holdpoint-bucket-"));

beforeAll(async () => {
  storage = await startObjectStorage();
  const environment = { DATA_DIR: folder, PHOTO_BUCKET_URL: storage.url };
  one = await startService({ environment });
  const database = { ...one, drop: async () => undefined };
  other = await startService({ environment, database, firm: one.firm });
});
afterAll(async () => {
  await other?.app.close();
  await one?.stop();
  await storage?.stop();
  rmSync(folder, { recursive: true, force: true });
});

const readPhoto = (service: TestService, jobId: string, sha256: string) =>
  service.as(service.firm.people.office).get(`/api/v1/jobs/${jobId}/photos/${sha256}`);

const manifestOf = async (service: TestService, jobId: string): Promise<string> => {
  const bag = await unpack(await downloadBag(service, jobId), folder);
  return readFileSync(join(bag, "manifest-sha256.txt"), "utf8");
};

test("a file that is gone from the folder is told as well, and the service goes on", async () => {
  const service = await startService({ environment: { DATA_DIR: folder } });
  const { jobId } = await addPracticeJob(service);
  const sha256 = await sendPhoto(service, jobId, 60);
  rmSync(join(folder, "photos", service.firm.firmId), { recursive: true });
  const gone = await readPhoto(service, jobId, sha256);
  expect(gone.status).toBe(409);
  expect(gone.body.detail).toMatch(/Restore it from a backup/);
  expect((await service.anonymous.get("/health/ready")).status).toBe(200);
  await service.stop();
});

describe("photos in a bucket", () => {
  test("come in at one instance and are seen at another, with nothing in a folder", async () => {
    const { jobId } = await addPracticeJob(one);
    const sha256 = await sendPhoto(one, jobId, 120);
    const key = `photos/${one.firm.firmId}/${sha256.slice(0, 2)}/${sha256}`;
    expect([...storage.objects.keys()]).toEqual([key]);
    expect(createHash("sha256").update(storage.objects.get(key)!).digest("hex")).toBe(sha256);
    const seen = await readPhoto(other, jobId, sha256);
    expect(seen.status).toBe(200);
    expect((await sharp(seen.body).metadata()).width).toBe(24);
    expect(existsSync(join(folder, "photos", one.firm.firmId))).toBe(false);
    expect(storage.refused).toEqual([]);
  });

  test("are in the evidence that either instance exports, byte for byte the same", async () => {
    const { jobId } = await addProvenJob(one);
    const first = await manifestOf(one, jobId);
    expect(first).toMatch(/data\/photos\/[0-9a-f]{64}\./);
    expect(await manifestOf(other, jobId)).toBe(first);
  });

  test("are told as busy, with when to come again, while the storage does not answer", async () => {
    const { jobId } = await addPracticeJob(one);
    storage.fail(503);
    const bytes = await sharp({ create: { width: 8, height: 8, channels: 3, background: "red" } })
      .png()
      .toBuffer();
    const sha256 = createHash("sha256").update(bytes).digest("hex");
    const send = () =>
      one
        .as(one.firm.people.installer)
        .put(`/api/v1/jobs/${jobId}/photos/${sha256}`)
        .set("content-type", "image/png")
        .send(bytes);
    const busy = await send();
    expect(busy.status).toBe(503);
    expect(Number(busy.headers["retry-after"])).toBeGreaterThan(0);
    expect((await readPhoto(one, jobId, sha256)).status).toBe(404);
    storage.fail(undefined);
    expect((await send()).status).toBe(201);
    expect((await send()).status).toBe(200);
  });

  test("one that is gone is told, and the service goes on", async () => {
    const { jobId } = await addPracticeJob(one);
    const sha256 = await sendPhoto(one, jobId, 60);
    storage.objects.clear();
    const gone = await readPhoto(one, jobId, sha256);
    expect(gone.status).toBe(409);
    expect(gone.body.detail).toMatch(/Restore it from a backup/);
  });

  test("with a wrong secret nothing is kept", async () => {
    const PHOTO_BUCKET_URL = storage.urlWith("another secret");
    const bytes = randomBytes(40);
    const name = { firmId: "f", sha256: createHash("sha256").update(bytes).digest("hex") };
    const strange = fileStorage({ dataFolder: folder, PHOTO_BUCKET_URL });
    await expect(strange.keep(name, bytes)).rejects.toThrow(/does not answer/);
    expect(storage.refused).toContain("signature");
  });

  test("an address without key or bucket is refused at the start", () => {
    for (const url of ["https://s3.example/bucket", "https://k:s@s3.example/", "ftp://k:s@h/b"]) {
      expect(() => readConfig({ PHOTO_BUCKET_URL: url }, "x")).toThrow(/PHOTO_BUCKET_URL/);
    }
  });
});
