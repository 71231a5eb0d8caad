// Cross pattern of ASME PCC-1 for eight fasteners on a circle: 1-5-3-7-2-6-4-8 (from memory).
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { startService, type TestService } from "../support/app.ts";
import { pointersOf } from "../support/replies.ts";

let service: TestService;
beforeAll(async () => {
  service = await startService();
});
afterAll(() => service.stop());

const GROUP = {
  id: "cover",
  name: "Cover",
  count: 8,
  pattern: { kind: "bolt-circle", diameterMm: 220 },
  thread: "M6",
  torqueNm: 8,
  torqueSource: "Sheet 2, page 14",
};
const send = (fields: object = {}, query = "") =>
  service
    .as(service.firm.people.installer)
    .post(`/api/v1/tightening${query}`)
    .send({ ...GROUP, ...fields });

describe("the tightening order", () => {
  test("of eight is ASME PCC-1's cross, at half and at full torque, then once round", async () => {
    const reply = await send();
    expect(reply.status, JSON.stringify(reply.body)).toBe(200);
    const cross = [1, 5, 3, 7, 2, 6, 4, 8];
    expect(reply.body.passes).toEqual([
      { number: 1, percent: 50, torqueNm: 4, kind: "staged", order: cross },
      { number: 2, percent: 100, torqueNm: 8, kind: "staged", order: cross },
      {
        number: 3,
        percent: 100,
        torqueNm: 8,
        kind: "check round",
        order: [1, 2, 3, 4, 5, 6, 7, 8],
      },
    ]);
    expect(reply.body.source).toContain("ASME PCC-1");
    expect(reply.body.caution).toContain("equipment's instructions govern");
  });

  test("is drawn where that is asked for", async () => {
    const reply = await send({}, "?format=svg").buffer();
    expect(reply.headers["content-type"]).toBe("image/svg+xml; charset=utf-8");
    expect(reply.body.toString()).toContain("Tightening order: Cover");
    const accepted = await send().set("accept", "image/svg+xml");
    expect(accepted.headers["content-type"]).toBe("image/svg+xml; charset=utf-8");
  });

  test.each([
    [
      "more fasteners than places",
      { pattern: { kind: "rectangle", columns: 3, rows: 2, pitchXMm: 1, pitchYMm: 1 } },
      "/body",
    ],
    ["stages that do not end at full torque", { stages: [{ percent: 50 }] }, "/body"],
    ["no torque", { torqueNm: 0 }, "/body/torqueNm"],
    ["no source of the torque", { torqueSource: " " }, "/body/torqueSource"],
    ["65 fasteners", { count: 65 }, "/body/count"],
  ])("is refused at the place of the fault: %s", async (_name, fields, pointer) => {
    const reply = await send(fields);
    expect([reply.status, pointersOf(reply)]).toEqual([422, [pointer]]);
  });

  test("takes up to 64 fasteners", async () => {
    expect((await send({ count: 64 })).status).toBe(200);
  });
});

describe("the mechanical calculations", () => {
  test("hang 110 kg on four anchors: 269.7 N of shear each (statics, g 9.80665)", async () => {
    const input = { massKg: 110, anchors: 4, topAnchors: 2, eccentricityM: 0.15, leverArmM: 0.6 };
    const reply = await service
      .as(service.firm.people.installer)
      .post("/api/v1/calculations/wall-load-shear")
      .send(input);
    expect(reply.body.result).toBeCloseTo((110 * 9.80665) / 4, 9);
    expect(reply.body.caution).not.toBe("");
  });

  test("take the anchor's capacity from the one who asks, never from a table", async () => {
    const { items } = (await service.as(service.firm.people.installer).get("/api/v1/calculations"))
      .body as { items: { name: string; input: { required?: string[] } }[] };
    const anchors = items.filter(({ name }) => name.startsWith("anchor"));
    expect(anchors.length).toBeGreaterThan(0);
    for (const { name, input } of anchors) {
      expect(
        input.required?.some((field) => /resistance|capacity|rd/i.test(field)),
        name,
      ).toBe(true);
    }
  });
});
