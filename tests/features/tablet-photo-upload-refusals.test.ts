// Which photos in pieces are refused, and from whom they are taken.
import { mkdirSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { uuidv7 } from "uuidv7";
import { afterAll, beforeAll, beforeEach, describe, expect, test } from "vitest";
import { inFirm } from "../../src/db/scope.ts";
import { noise, sha256Of, UploadSender } from "../support/photo-sender.ts";
import { type PhotoInPieces, startUploads, type Uploads } from "../support/uploads.ts";

let uploads: Uploads;
let photo: PhotoInPieces;

beforeAll(async () => {
  uploads = await startUploads();
});
afterAll(() => uploads.stop());
beforeEach(async () => {
  photo = await uploads.newPhoto();
});

describe("a photo in pieces is refused", () => {
  test("once its bytes prove wrong: from the start first, for good the second time", async () => {
    const wrong = noise(photo.picture.length, 7);
    const again = await photo.sendAll({ bytes: wrong });
    expect(again).toMatchObject({ status: 409, offset: 0, complete: false });
    expect(photo.partials()).toEqual([]);
    const refused = await photo.sendAll({ bytes: wrong });
    expect(refused.status).toBe(422);
    expect(refused.body.errors).toMatchObject([{ pointer: "/params/sha256" }]);
    expect(await photo.sendAll()).toMatchObject({ status: 204, complete: true });
  });

  test("when it is no picture, and nothing of it stays", async () => {
    photo = await uploads.newPhoto(Buffer.from("not a picture at all"));
    const reply = await photo.sendAll();
    expect([reply.status, reply.body.type]).toEqual([415, "/problems/unsupported-type"]);
    expect(photo.partials()).toEqual([]);
  });

  const most = 15 * 1024 * 1024;
  test.each([
    ["longer than a photo may be", { "upload-length": String(most + 1) }, "/headers/upload-length"],
    ["without its length", { "upload-length": undefined }, "/headers/upload-length"],
    ["of no length", { "upload-length": "0" }, "/headers/upload-length"],
    ["without its place", { "upload-offset": undefined }, "/headers/upload-offset"],
    ["at a place below zero", { "upload-offset": "-1" }, "/headers/upload-offset"],
    ["longer than it says", { "upload-length": "99" }, "/headers/upload-length"],
  ])("%s", async (_what, headers, pointer) => {
    const reply = await photo.send(0, 100, { headers });
    expect([reply.status, reply.body.errors?.map((error) => error.pointer)]).toEqual([
      422,
      [pointer],
    ]);
    expect((await photo.ask()).offset).toBe(0);
  });

  test("not when it is exactly as long as a photo may be", async () => {
    const reply = await photo.send(0, 100, { headers: { "upload-length": String(most) } });
    expect(reply).toMatchObject({ status: 204, offset: 100 });
  });

  test("when more comes than was said, past the length that was told", async () => {
    const headers = { "content-length": undefined, "upload-length": "100" };
    await photo
      .send(0, 101, { headers: { ...headers, "transfer-encoding": "chunked" } })
      .catch(() => undefined);
    expect((await photo.ask()).offset).toBeLessThanOrEqual(100);
    expect(await photo.photos()).toEqual([]);
  });

  test("under another content type", async () => {
    const headers = { "content-type": "application/octet-stream" };
    expect((await photo.send(0, 100, { headers })).status).toBe(415);
  });

  test("while 200 others of the firm are on their way, and taken again after", async () => {
    const crowd = uuidv7();
    const firm = join(uploads.folder, "photo-uploads", uploads.service.firm.firmId);
    const place = join(firm, crowd);
    const before = readdirSync(firm).flatMap((job) => readdirSync(join(firm, job))).length;
    mkdirSync(place, { recursive: true });
    for (let count = before; count < 200; count += 1) {
      writeFileSync(join(place, `${count}.part`), "x");
    }
    const reply = await photo.send(0, 100);
    expect([reply.status, reply.headers["retry-after"]]).toEqual([503, "60"]);
    rmSync(join(place, "199.part"));
    expect(await photo.send(0, 100)).toMatchObject({ status: 204, offset: 100 });
    rmSync(place, { recursive: true });
  });
});

describe("who may send", () => {
  test("no auditor, nobody unsigned, nobody of another firm", async () => {
    const other = await uploads.service.addFirm("birch");
    const auditor = new UploadSender(uploads.address, uploads.service.firm.people.auditor.token);
    const stranger = new UploadSender(uploads.address, other.people.installer.token);
    const nobody = new UploadSender(uploads.address, "none");
    const piece = { offset: 0, length: photo.picture.length, bytes: photo.picture };
    for (const [who, status] of [
      [auditor, 403],
      [stranger, 404],
      [nobody, 401],
    ] as const) {
      expect((await who.ask(photo.jobId, photo.name)).status).toBe(status);
      expect((await who.send(photo.jobId, photo.name, piece)).status).toBe(status);
    }
    expect(readdirSync(join(uploads.folder, "photo-uploads"))).not.toContain(other.firmId);
  });

  test("nothing to a job that is over, but for what an operation of a tablet names", async () => {
    await cancelJob();
    const refused = await photo.sendAll();
    expect([refused.status, refused.body.type]).toEqual([409, "/problems/job-not-open"]);
    expect((await photo.ask()).status).toBe(409);
    await holdOp([photo.name]);
    expect(await photo.send(0, 9000)).toMatchObject({ status: 204, offset: 9000 });
    expect(await photo.send(9000, photo.picture.length)).toMatchObject({
      status: 204,
      complete: true,
    });
    const put = await uploads.service
      .as(uploads.service.firm.people.installer)
      .put(`/api/v1/jobs/${photo.jobId}/photos/${photo.name}`)
      .set("content-type", "image/png")
      .send(photo.picture);
    expect(put.status).toBe(200);
  });
});

/** An operation that came in and is held, made straight in the database. */
async function holdOp(photoSha256: string[]): Promise<void> {
  const { firmId, people } = uploads.service.firm;
  const [opId, deviceId, personId] = [uuidv7(), uuidv7(), people.installer.id];
  const at = new Date();
  await inFirm(uploads.service.db, firmId, async (tx) => {
    const seen = { firstSeenAt: at, lastSeenAt: at };
    const device = { firmId, id: deviceId, personId, lastSeq: 1, lastHash: "0".repeat(64) };
    await tx.tabletDevice.create({ data: { ...device, ...seen } });
    const own = { firmId, opId, deviceId, deviceSeq: 1, jobId: photo.jobId, personId };
    const kept = { kind: "answer", orderSeen: 0, outcome: "held", reply: {}, receivedAt: at };
    const flags = { chainBroken: false, differs: false };
    const body = { body: "{}", bodySha256: sha256Of(Buffer.from("{}")), photoSha256 };
    await tx.tabletOp.create({ data: { ...own, ...kept, ...flags, ...body, sentById: personId } });
  });
}

async function cancelJob(): Promise<void> {
  const { firmId } = uploads.service.firm;
  const where = { firmId_id: { firmId, id: photo.jobId } };
  await inFirm(uploads.service.db, firmId, (tx) =>
    tx.job.update({ where, data: { state: "cancelled" } }),
  );
}
