// Type and class by ISO 6789-1:2017: what they permit warns, and judges nothing.
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { startService, type TestService } from "../support/app.ts";
import { pointersOf } from "../support/replies.ts";
import { torqueWork } from "../support/torque-work.ts";

let service: TestService;
let work: ReturnType<typeof torqueWork>;
beforeAll(async () => {
  service = await startService({ now: () => new Date("2026-11-25T17:00:00Z") });
  work = torqueWork(service);
});
afterAll(() => service.stop());

describe("type and class of a torque tool", () => {
  // Type II class A: ±4 % above 10 N·m, ISO 6789-1:2017 5.1.5, seen in a secondary page.
  test("warn where the stated accuracy is looser than the standard permits", async () => {
    const fields = {
      torqueTool: { type: "II", class: "A" },
      rangeMax: { value: 20, unit: "N·m" },
      accuracy: { percentOfSetting: 4 },
    };
    const { id } = await work.tool(fields);
    expect(await work.read(id)).toMatchObject({ ...fields, warnings: [] });
    const loose = await work.tool({ ...fields, accuracy: { percentOfSetting: 6 } });
    expect((await work.read(loose.id)).warnings).toEqual([
      expect.stringContaining("permits ±4 % for type II class A above 10 N·m"),
    ]);
  });

  test.each([
    [
      "a class of the other type",
      { torqueTool: { type: "I", class: "G" } },
      "/body/torqueTool/class",
    ],
    ["no class", { torqueTool: { type: "I" } }, "/body/torqueTool/class"],
    ["a type that is none", { torqueTool: { type: "III", class: "A" } }, "/body/torqueTool/type"],
    [
      "a multimeter",
      { instrumentClass: "multimeter", torqueTool: { type: "I", class: "A" } },
      "/body/torqueTool",
    ],
  ])("are refused for %s by the pointer", async (_what, fields, pointer) => {
    const body = { reference: "X-1", name: "X", instrumentClass: "torque-wrench", serial: "1" };
    const reply = await work.office.post("/api/v1/instruments").send({ ...body, ...fields });
    expect([reply.status, pointersOf(reply)]).toEqual([422, [pointer]]);
  });

  test("are edited, and taken off again", async () => {
    const { id } = await work.tool({ torqueTool: { type: "I", class: "C" } });
    const edit = (version: number, change: object) =>
      work.office.patch(`/api/v1/instruments/${id}`).set("if-match", `"${version}"`).send(change);
    const turned = await edit(1, { torqueTool: { type: "II", class: "C" } });
    expect(turned.body.torqueTool).toEqual({ type: "II", class: "C" });
    expect((await edit(2, { torqueTool: null })).body.torqueTool).toBeNull();
  });
});
