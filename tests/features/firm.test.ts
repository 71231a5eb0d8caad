import sharp from "sharp";
import { afterAll, beforeAll, expect, test } from "vitest";
import { inFirm } from "../../src/db/scope.ts";
import { readBranding } from "../../src/features/firms/branding-store.ts";
import { contrastWithWhite } from "../../src/features/firms/legible.ts";
import { startService, type TestService } from "../support/app.ts";

let service: TestService;
beforeAll(async () => {
  service = await startService();
});
afterAll(async () => service.stop());

const owner = () => service.as(service.firm.people.owner);
const read = async () => (await owner().get("/api/v1/firm")).body;
const edit = async (change: object, version?: number) =>
  owner()
    .patch("/api/v1/firm")
    .set("if-match", `"${version ?? (await read()).version}"`)
    .send(change);
const branding = () => inFirm(service.db, service.firm.firmId, readBranding);

test("contrast with white is counted as WCAG 2.2 says", () => {
  expect(contrastWithWhite("#000000")).toBeCloseTo(21, 5);
  expect(contrastWithWhite("#ffffff")).toBeCloseTo(1, 5);
  // The grey that is known as the lightest to pass 4.5 : 1 (WebAIM, from memory).
  expect(contrastWithWhite("#767676")).toBeGreaterThanOrEqual(4.5);
  expect(contrastWithWhite("#777777")).toBeLessThan(4.5);
});

test("the firm is changed by its owner, at the version that was read", async () => {
  const before = await read();
  expect(before).toMatchObject({ name: "alder", base: null, colour: "#14524d", hasMark: false });
  const base = { latitude: 52.1, longitude: -1.4 };
  const change = { name: "Alder Storage", base, address: "1 Kiln Lane\nThornbeck", phone: "0123" };
  const changed = await edit(change);
  expect(changed.status, JSON.stringify(changed.body)).toBe(200);
  expect(changed.body).toMatchObject({ ...change, timeZone: before.timeZone });
  expect((await edit({ name: "Late" }, before.version)).status).toBe(412);
  expect(await branding()).toMatchObject({
    ...{ name: "Alder Storage", addressLines: ["1 Kiln Lane", "Thornbeck"], phone: "0123" },
    mark: undefined,
  });
  const office = service.as(service.firm.people.office);
  expect((await office.get("/api/v1/firm")).status).toBe(200);
  expect((await office.patch("/api/v1/firm").set("if-match", '"1"').send({})).status).toBe(403);
});

test.each([
  [{ colour: "#ffee99" }, "/body/colour"],
  [{ colour: "teal" }, "/body/colour"],
  [{ timeZone: "Mars/Base" }, "/body/timeZone"],
  [{ base: { latitude: 91, longitude: 0 } }, "/body/base/latitude"],
  [{ address: "1\n2\n3\n4\n5\n6" }, "/body/address"],
  [{ email: "nobody" }, "/body/email"],
])("%j is refused at its field", async (change, pointer) => {
  const { status, body } = await edit(change);
  expect(status).toBe(422);
  expect(body.errors.map((one: { pointer: string }) => one.pointer)).toContain(pointer);
});

test("a mark is drawn anew, bounded, and without what came with it", async () => {
  const sent = await sharp({
    create: { width: 2000, height: 500, channels: 3, background: "#336699" },
  })
    .withExif({ IFD0: { Copyright: "somebody" } })
    .jpeg()
    .toBuffer();
  const put = await owner().put("/api/v1/firm/mark").set("content-type", "image/jpeg").send(sent);
  expect(put.status, JSON.stringify(put.body)).toBe(204);
  const got = await owner().get("/api/v1/firm/mark");
  expect(got.headers["content-type"]).toBe("image/png");
  const { format, width, height, exif } = await sharp(got.body).metadata();
  expect({ format, width, height, exif }).toEqual({
    ...{ format: "png", width: 800, height: 200, exif: undefined },
  });
  expect((await branding()).mark).toEqual(got.body);
  expect((await read()).hasMark).toBe(true);
  expect((await owner().delete("/api/v1/firm/mark")).status).toBe(204);
  expect((await owner().get("/api/v1/firm/mark")).status).toBe(404);
});

test("what is no picture is no mark", async () => {
  const svg = Buffer.from('<svg xmlns="http://www.w3.org/2000/svg"><script/></svg>');
  const put = await owner().put("/api/v1/firm/mark").set("content-type", "image/png").send(svg);
  expect(put.status).toBe(422);
  const typed = await owner()
    .put("/api/v1/firm/mark")
    .set("content-type", "image/svg+xml")
    .send(svg);
  expect(typed.status).toBe(415);
});
