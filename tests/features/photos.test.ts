import { createHash } from "node:crypto";
import { chmodSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { request as httpRequest } from "node:http";
import type { AddressInfo } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import sharp from "sharp";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { startService, type TestService } from "../support/app.ts";
import { addJobRows } from "../support/rows.ts";

const folder = mkdtempSync(join(tmpdir(), "holdpoint-photos-"));
let service: TestService;
let jobId: string;
let picture: Buffer;

const sha256 = (bytes: Buffer) => createHash("sha256").update(bytes).digest("hex");

beforeAll(async () => {
  service = await startService({ environment: { DATA_DIR: folder } });
  ({ jobId } = await addJobRows(service, { schema: "plan/1", stages: [] }));
  // Exif as a phone writes it, with a position, to see it gone from what is shown.
  picture = await sharp({ create: { width: 60, height: 40, channels: 3, background: "#884422" } })
    .withExif({ IFD3: { GPSLatitudeRef: "N", GPSLatitude: "51/1 30/1 0/1" } })
    .jpeg()
    .toBuffer();
});
afterAll(async () => {
  await service.stop();
  rmSync(folder, { recursive: true, force: true });
});

const installer = () => service.as(service.firm.people.installer);

const put = (bytes: Buffer, name = sha256(bytes), type = "image/jpeg") =>
  installer().put(`/api/v1/jobs/${jobId}/photos/${name}`).set("content-type", type).send(bytes);

describe("a photo", () => {
  test("is kept once under its hash, and sending it again is harmless", async () => {
    const first = await put(picture);
    expect([first.status, first.body.widthPx, first.body.mediaType]).toEqual([
      201,
      60,
      "image/jpeg",
    ]);
    const again = await put(picture);
    expect([again.status, again.body.id]).toEqual([200, first.body.id]);
    const list = await installer().get(`/api/v1/jobs/${jobId}/photos`);
    expect(list.body.items).toHaveLength(1);
  });

  test("is shown without its position", async () => {
    await put(picture);
    expect((await sharp(picture).metadata()).exif).toBeDefined();
    const shown = await installer()
      .get(`/api/v1/jobs/${jobId}/photos/${sha256(picture)}`)
      .buffer(true);
    expect(shown.status).toBe(200);
    expect((await sharp(shown.body as Buffer).metadata()).exif).toBeUndefined();
  });

  test("whose file is damaged since, or gone, is told with the way out", async () => {
    const other = await sharp(picture).resize(30).jpeg().toBuffer();
    const name = sha256(other);
    expect((await put(other)).status).toBe(201);
    const all = readdirSync(folder, { recursive: true, withFileTypes: true });
    const file = all.find((entry) => entry.name === name)!;
    const path = join(file.parentPath, file.name);
    chmodSync(path, 0o600);
    writeFileSync(path, other.subarray(0, other.length / 2));
    const read = () => installer().get(`/api/v1/jobs/${jobId}/photos/${name}`);
    const damaged = await read();
    expect([damaged.status, damaged.body.type]).toEqual([409, "/problems/evidence-damaged"]);
    expect(damaged.body.detail).toMatch(/not whole any more\. Restore it from a backup/);
    rmSync(path);
    const gone = await read();
    expect([gone.status, gone.body.type]).toEqual([409, "/problems/evidence-damaged"]);
  });

  test("that arrives damaged is refused by its hash, and nothing is kept", async () => {
    const reply = await put(picture.subarray(0, picture.length - 9), "a".repeat(64));
    expect([reply.status, reply.body.errors[0].pointer]).toEqual([422, "/params/sha256"]);
    expect(readdirSync(join(folder, "photos", service.firm.firmId))).not.toContain("aa");
  });

  test.each([
    ["an SVG", Buffer.from('<svg xmlns="http://www.w3.org/2000/svg" width="9" height="9"/>')],
    ["a text", Buffer.from("not a picture at all")],
    ["half a JPEG", Buffer.alloc(0)],
  ])("that is %s is refused whatever it calls itself", async (_name, bytes) => {
    const body = bytes.length ? bytes : picture.subarray(0, picture.length / 2);
    const reply = await put(body);
    expect([reply.status, reply.body.type]).toEqual([415, "/problems/unsupported-type"]);
  });

  test("with too many pixels is refused unpacked", async () => {
    const bomb = await sharp({
      create: { width: 9000, height: 9000, channels: 3, background: "#000" },
    })
      .png({ compressionLevel: 9 })
      .toBuffer();
    const reply = await put(bomb, sha256(bomb), "image/png");
    expect([reply.status, reply.body.type]).toEqual([415, "/problems/unsupported-type"]);
  });

  test("announced as 3 GB is refused before its bytes are read", async () => {
    await service.app.listen({ port: 0, host: "127.0.0.1" });
    const { port } = service.app.server.address() as AddressInfo;
    const status = await new Promise<number>((resolve, reject) => {
      const sent = httpRequest({
        port,
        method: "PUT",
        path: `/api/v1/jobs/${jobId}/photos/${"b".repeat(64)}`,
        headers: {
          authorization: `Bearer ${service.firm.people.installer.token}`,
          "content-type": "image/jpeg",
          "content-length": 3 * 1024 ** 3,
        },
      });
      sent.on("response", (reply) => {
        resolve(reply.statusCode ?? 0);
        sent.destroy();
      });
      sent.on("error", reject);
      sent.write(picture);
    });
    expect(status).toBe(413);
  });

  test("for another firm's job is refused, and nothing of it is kept", async () => {
    const other = await service.addFirm("birch");
    const reply = await service
      .as(other.people.installer)
      .put(`/api/v1/jobs/${jobId}/photos/${sha256(picture)}`)
      .set("content-type", "image/jpeg")
      .send(picture);
    expect(reply.status).toBe(404);
    expect(readdirSync(join(folder, "photos"))).not.toContain(other.firmId);
  });
});
