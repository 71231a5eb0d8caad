// A photo that comes in pieces: each begins where the last one ended, and the whole is a photo like
// any other. Header names follow the IETF's draft "Resumable Uploads for HTTP" (from memory).
import { mkdirSync, writeFileSync } from "node:fs";
import { utimes } from "node:fs/promises";
import { request as httpRequest } from "node:http";
import { dirname } from "node:path";
import { afterAll, beforeAll, beforeEach, describe, expect, test } from "vitest";
import { purgePhotoUploads } from "../../src/runs/purge-photo-uploads.ts";
import { ledgerOf } from "../support/reading.ts";
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

describe("a photo in pieces", () => {
  test("grows to a photo of the job, tied to its item, and the ledger names it once", async () => {
    expect(await photo.ask()).toMatchObject({ status: 204, offset: 0, complete: false });
    const first = await photo.send(0, 15_000);
    expect(first).toMatchObject({ status: 204, offset: 15_000, complete: false });
    expect(await photo.ask()).toMatchObject({ status: 204, offset: 15_000, complete: false });
    expect(await photo.photos()).toEqual([]);
    const query = "?itemId=wall_gap&subject=left";
    const last = await photo.send(15_000, photo.picture.length, { query });
    expect(last).toMatchObject({ status: 204, offset: photo.picture.length, complete: true });
    expect(await photo.photos()).toMatchObject([
      { sha256: photo.name, bytes: photo.picture.length, itemId: "wall_gap", subject: "left" },
    ]);
    expect(photo.keptBytes().equals(photo.picture)).toBe(true);
    expect(photo.partials()).toEqual([]);
    const received = (await ledgerOf(uploads.service, photo.jobId)).filter(
      ({ kind }) => kind === "photo.received",
    );
    expect(received).toHaveLength(1);
  });

  test("that is whole answers so for ever, whatever is sent again", async () => {
    await photo.sendAll();
    expect(await photo.ask()).toMatchObject({
      status: 204,
      offset: photo.picture.length,
      complete: true,
    });
    expect(await photo.sendAll()).toMatchObject({ status: 204, complete: true });
    expect(await photo.send(9, 20)).toMatchObject({
      status: 204,
      offset: photo.picture.length,
      complete: true,
    });
    expect(await photo.photos()).toHaveLength(1);
    expect(await ledgerOf(uploads.service, photo.jobId)).toHaveLength(1);
  });

  test.each([
    ["after a gap", 15_001],
    ["over what is there", 14_999],
    ["from the start again", 0],
  ])("refuses a piece %s and says where to go on", async (_what, offset) => {
    await photo.send(0, 15_000);
    const reply = await photo.send(offset, offset + 5000);
    expect(reply).toMatchObject({ status: 409, offset: 15_000, complete: false });
    expect(reply.body.type).toBe("/problems/conflict");
    expect(await photo.send(15_000, photo.picture.length)).toMatchObject({
      status: 204,
      complete: true,
    });
  });

  test("is checked on a piece of no bytes, where that could not be done before", async () => {
    mkdirSync(dirname(photo.path), { recursive: true });
    writeFileSync(photo.path, photo.picture);
    expect(await photo.ask()).toMatchObject({
      status: 204,
      offset: photo.picture.length,
      complete: false,
    });
    expect(await photo.send(photo.picture.length, photo.picture.length)).toMatchObject({
      status: 204,
      complete: true,
    });
    expect(await photo.photos()).toHaveLength(1);
  });

  test("keeps what came in before its connection broke", async () => {
    await expect(photo.sendAll({ cutAfter: 20_000 })).rejects.toThrow();
    const { offset } = await photo.ask();
    expect(offset).toBeLessThanOrEqual(20_000);
    expect(await photo.send(offset, photo.picture.length)).toMatchObject({
      status: 204,
      complete: true,
    });
  });

  test("goes on at once though the connection before still hangs", async () => {
    const sent = httpRequest(uploads.sender.pathOf(photo.jobId, photo.name), {
      method: "PATCH",
      headers: {
        authorization: `Bearer ${uploads.sender.token}`,
        "content-type": "application/partial-upload",
        "content-length": photo.picture.length,
        "upload-offset": "0",
        "upload-length": String(photo.picture.length),
      },
    });
    const broken = new Promise((resolve) => sent.on("error", resolve));
    sent.write(photo.picture.subarray(0, 10_000));
    await expect.poll(() => photo.bytesHere()).toBe(10_000);
    expect((await photo.ask()).offset).toBe(10_000);
    expect(await photo.send(10_000, photo.picture.length)).toMatchObject({
      status: 204,
      complete: true,
    });
    await broken;
    expect(await photo.photos()).toHaveLength(1);
  });

  test("sent twice side by side is one photo", async () => {
    const sendings = await Promise.allSettled(
      Array.from({ length: 6 }, () => photo.sendAll().catch(() => undefined)),
    );
    expect(sendings).toHaveLength(6);
    const { offset, complete } = await photo.ask();
    if (!complete) await photo.send(offset, photo.picture.length);
    expect(await photo.ask()).toMatchObject({ complete: true, offset: photo.picture.length });
    expect(await photo.photos()).toHaveLength(1);
    expect(await ledgerOf(uploads.service, photo.jobId)).toHaveLength(1);
  });
});

describe("the purge", () => {
  const now = new Date("2026-12-24T03:17:00Z");
  test.each([
    ["exactly 14 days ago is left", "2026-12-10T03:17:00Z", 100],
    ["a second longer ago is removed", "2026-12-10T03:16:59Z", 0],
  ])("of an upload that was last gone on with %s", async (_when, time, left) => {
    await photo.send(0, 100);
    await utimes(photo.path, new Date(time), new Date(time));
    await purgePhotoUploads(uploads.service.db, uploads.folder, now);
    expect((await photo.ask()).offset).toBe(left);
  });
});
