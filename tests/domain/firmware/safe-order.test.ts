// The product rule on small sites that can be checked by hand; models are invented.
import { describe, expect, test } from "vitest";
import type { OrderModel, OrderUnit } from "../../../src/domain/firmware/order-request.ts";
import { ORDER_UNITS_MOST, safeOrder } from "../../../src/domain/firmware/safe-order.ts";

const PACK: OrderModel = {
  code: "PK",
  scheme: "semver",
  releases: [
    { level: "1.0.0" },
    { level: "1.4.0" },
    {
      level: "2.0.0",
      from: { min: "1.4.0" },
      needs: [{ modelCode: "IV", range: { min: "3.1.0" } }],
    },
  ],
};
const INVERTER: OrderModel = {
  code: "IV",
  scheme: "semver",
  releases: [
    { level: "3.0.0" },
    { level: "3.1.0" },
    { level: "4.0.0", needs: [{ modelCode: "PK", range: { min: "2.0.0" } }] },
  ],
};
const pack = (id: string, level: string, targetLevel?: string): OrderUnit => ({
  id,
  label: `Pack ${id}`,
  modelCode: "PK",
  level,
  targetLevel,
});
const inverter = (level: string, targetLevel?: string): OrderUnit => ({
  id: "i",
  label: "Inverter",
  modelCode: "IV",
  level,
  targetLevel,
});

describe("an order", () => {
  test("goes over the stepping stone, and the companion first", () => {
    const units = [pack("a", "1.0.0", "2.0.0"), inverter("3.0.0", "4.0.0")];
    const order = safeOrder([PACK, INVERTER], units);
    expect(order).toMatchObject({ state: "in-order", brokenNow: [] });
    const steps = order.state === "in-order" ? order.steps : [];
    expect(steps.map(({ label, to }) => `${label} ${to}`).sort()).toEqual([
      "Inverter 3.1.0",
      "Inverter 4.0.0",
      "Pack a 1.4.0",
      "Pack a 2.0.0",
    ]);
    const at = (label: string, to: string) =>
      steps.findIndex((step) => step.label === label && step.to === to);
    expect(at("Inverter", "3.1.0")).toBeLessThan(at("Pack a", "2.0.0"));
    expect(at("Pack a", "1.4.0")).toBeLessThan(at("Pack a", "2.0.0"));
    expect(at("Pack a", "2.0.0")).toBeLessThan(at("Inverter", "4.0.0"));
  });

  test("is told in one sentence", () => {
    const order = safeOrder([PACK, INVERTER], [pack("a", "1.0.0", "1.4.0"), inverter("3.0.0")]);
    expect(order.sentence).toBe("1 update: Pack a from 1.0.0 to 1.4.0.");
    const two = safeOrder([PACK], [pack("a", "1.0.0", "2.0.0")]);
    expect(two.sentence).toBe(
      "2 updates: Pack a from 1.0.0 to 1.4.0, then Pack a from 1.4.0 to 2.0.0.",
    );
    expect(safeOrder([PACK], [pack("a", "1.0.0")]).sentence).toBe("Every unit is at its target.");
    expect(safeOrder([], []).sentence).toBe("Every unit is at its target.");
  });

  test("says which units do not go together as they stand", () => {
    const units = [pack("a", "1.4.0", "2.0.0"), inverter("4.0.0")];
    expect(safeOrder([PACK, INVERTER], units)).toMatchObject({
      state: "in-order",
      brokenNow: [
        "Inverter does not go with Pack a at 1.4.0: IV at 4.0.0 needs PK at 2.0.0 or above.",
      ],
    });
  });

  test("needs nothing of a companion that the site does not have", () => {
    expect(safeOrder([PACK], [pack("a", "1.4.0", "2.0.0")])).toMatchObject({ state: "in-order" });
  });
});

describe("no order", () => {
  test("names the rule and the two units, and leaves a third unit out", () => {
    const units = [pack("a", "1.4.0", "2.0.0"), inverter("3.0.0"), pack("b", "1.0.0", "1.4.0")];
    expect(safeOrder([PACK, INVERTER], units)).toEqual({
      state: "no-order",
      unitIds: ["a", "i"],
      because: [
        {
          kind: "needs",
          modelCode: "PK",
          level: "2.0.0",
          otherCode: "IV",
          words: "PK at 2.0.0 needs IV at 3.1.0 or above",
        },
      ],
      smallest: true,
      sentence:
        "There is no safe order for Pack a (1.4.0 to 2.0.0) and Inverter (stays at 3.0.0): " +
        "PK at 2.0.0 needs IV at 3.1.0 or above. Choose another target for one of them, " +
        "or ask the maker for the order it supports.",
    });
  });

  test("for two packs of which neither can go first", () => {
    const twins: OrderModel = {
      ...PACK,
      releases: [
        { level: "1.0.0", needs: [{ modelCode: "PK", range: { below: "2.0.0" } }] },
        { level: "2.0.0" },
      ],
    };
    const units = [pack("a", "1.0.0", "2.0.0"), pack("b", "1.0.0", "2.0.0")];
    expect(safeOrder([twins], units)).toMatchObject({ state: "no-order", unitIds: ["a", "b"] });
    expect(safeOrder([twins], units.slice(1))).toMatchObject({ state: "in-order" });
  });

  test.each([
    ["a target that was never released", "1.5.0", []],
    ["a target below", "0.9.0", []],
  ])("to %s, without a rule to blame", (_, target, because) => {
    const order = safeOrder([PACK], [pack("a", "1.0.0", target)]);
    expect(order).toMatchObject({ state: "no-order", unitIds: ["a"], because });
    expect(order.sentence).toContain("no release leads there");
  });

  test("to a withdrawn release, and round a withdrawn stepping stone", () => {
    const releases = PACK.releases.map((one) => ({ ...one, withdrawn: one.level === "1.4.0" }));
    const order = safeOrder([{ ...PACK, releases }], [pack("a", "1.0.0", "2.0.0")]);
    expect(order.sentence).toContain("PK 1.4.0 is withdrawn");
    expect(order.sentence).toContain("PK 2.0.0 is installed over 1.4.0 or above only");
    expect(safeOrder([{ ...PACK, releases }], [pack("a", "1.4.0", "2.0.0")])).toMatchObject({
      state: "in-order",
    });
  });
});

describe("unclear", () => {
  test.each([
    ["a level that is none", [pack("a", "newest", "2.0.0")], '"newest" is no SemVer level'],
    ["an unknown model", [inverter("3.0.0")], "Inverter: there is no model IV."],
  ])("with %s", (_, units, words) => {
    const order = safeOrder([PACK], units);
    expect(order.state).toBe("unclear");
    expect(order.sentence).toContain(words);
  });

  test("with a bound that is no level", () => {
    const releases = [{ level: "1.0.0" }, { level: "2.0.0", from: { min: "one" } }];
    const order = safeOrder([{ ...PACK, releases }], [pack("a", "1.0.0", "2.0.0")]);
    expect(order).toMatchObject({ state: "unclear" });
    expect(order.sentence).toContain('"one" is no SemVer level');
  });

  test.each([
    [ORDER_UNITS_MOST, "in-order"],
    [ORDER_UNITS_MOST + 1, "unclear"],
  ])("with %d units the answer is %s", (count, state) => {
    const units = Array.from({ length: count }, (_, id) => pack(String(id), "1.0.0", "1.4.0"));
    expect(safeOrder([PACK], units).state).toBe(state);
  });

  test.each([
    [64, "in-order"],
    [65, "unclear"],
  ])("with %d levels of one model the answer is %s", (count, state) => {
    const releases = Array.from({ length: count }, (_, index) => ({ level: `1.${index}.0` }));
    const order = safeOrder([{ ...PACK, releases }], [pack("a", "1.0.0", "1.9.0")]);
    expect(order.state).toBe(state);
  });
});
