import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { startService, type TestService } from "../support/app.ts";

let service: TestService;
beforeAll(async () => {
  service = await startService();
});
afterAll(() => service.stop());

const installer = () => service.as(service.firm.people.installer);
const calculate = (name: string, input: object) =>
  installer().post(`/api/v1/calculations/${name}`).send(input);

interface Entry {
  name: string;
  example: object;
  input: { properties: object };
}

describe("calculations", () => {
  test("are listed, and each works on its own example with working, source and caution", async () => {
    const { items } = (await installer().get("/api/v1/calculations")).body as { items: Entry[] };
    expect(items.length).toBeGreaterThan(30);
    expect(new Set(items.map((item) => item.name)).size).toBe(items.length);
    for (const { name, example, input } of items) {
      expect(Object.keys(input.properties ?? input).length, name).toBeGreaterThan(0);
      const reply = await calculate(name, example);
      expect(reply.status, `${name} ${JSON.stringify(reply.body)}`).toBe(200);
      expect(reply.body.steps.length, name).toBeGreaterThan(0);
      for (const text of [reply.body.source, reply.body.edition, reply.body.caution]) {
        expect(text, name).not.toBe("");
      }
    }
  });

  test("agree with BS 7671 Appendix 3 on B32: 0.8 × 230 × 0.95 / 160 = 1.0925 Ω", async () => {
    const input = { system: "TN", curve: "B", ratingA: 32, rule: "eighty-percent", u0V: 230 };
    const reply = await calculate("max-earth-loop-impedance", input);
    expect(reply.body.result).toBeCloseTo(1.0925, 6);
    const failing = await calculate("max-earth-loop-impedance", { ...input, measuredOhm: 1.1 });
    expect([failing.body.passes, reply.body.passes]).toEqual([false, undefined]);
  });

  test("refuse an unknown name, an unknown field and a value outside its bounds", async () => {
    expect((await calculate("perpetual-motion", {})).status).toBe(404);
    const bad = await calculate("max-earth-loop-impedance", {
      curve: "Q",
      ratingA: -1,
      colour: "red",
    });
    expect(bad.status).toBe(422);
    expect(bad.body.errors.map((error: { pointer: string }) => error.pointer)).toContain(
      "/body/curve",
    );
  });
});
