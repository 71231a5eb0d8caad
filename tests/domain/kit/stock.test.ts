import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { KitItem } from "../../../src/domain/kit/kit-item.ts";
import { type StockDemand, shortfalls, stockDemands } from "../../../src/domain/kit/shortfall.ts";
import {
  type CHECK_RESULTS,
  conditionFrom,
  UNPACK_CHECKS,
  type UnpackResults,
} from "../../../src/domain/kit/unpack-checks.ts";

const item = (more: Partial<KitItem>): KitItem => ({
  ...{ key: "k", category: "anchor", name: "Bolt", amount: 4, countedIn: "piece" },
  ...{ perPerson: false, notes: [], sources: [], ...more },
});

describe("what jobs take from stock", () => {
  test("lines of one code add up, those for each person by the crew, others not at all", () => {
    const items = [
      item({ key: "a", stockCode: "BOLT" }),
      item({ key: "b", stockCode: "BOLT", amount: 0.1 }),
      item({ key: "c", stockCode: "BOLT", amount: 0.2 }),
      item({ key: "d", stockCode: "MASK", amount: 1, perPerson: true }),
      item({ key: "e" }),
    ];
    expect(stockDemands("j", items, 3)).toEqual([
      { jobId: "j", stockCode: "BOLT", amount: 4.3 },
      { jobId: "j", stockCode: "MASK", amount: 3 },
    ]);
  });

  test.each([
    [12, []],
    [11, [{ jobId: "b", stockCode: "BOLT", amount: 8, there: 7 }]],
    [
      3,
      [
        { jobId: "a", stockCode: "BOLT", amount: 4, there: 3 },
        { jobId: "b", stockCode: "BOLT", amount: 8, there: 0 },
      ],
    ],
    [
      -2,
      [
        { jobId: "a", stockCode: "BOLT", amount: 4, there: 0 },
        { jobId: "b", stockCode: "BOLT", amount: 8, there: 0 },
      ],
    ],
  ])("with %i bolts for 4 and then 8, the earlier is served first", (stock, missing) => {
    const demands = [
      { jobId: "a", stockCode: "BOLT", amount: 4 },
      { jobId: "b", stockCode: "BOLT", amount: 8 },
    ];
    expect(shortfalls(demands, new Map([["BOLT", stock]]))).toEqual(missing);
  });

  test("nothing is served that is not there, and nothing is short while stock is left", () => {
    const demand = fc.record({
      jobId: fc.uuid(),
      stockCode: fc.constantFrom("A", "B"),
      amount: fc.integer({ min: 1, max: 50 }),
    });
    fc.assert(
      fc.property(fc.array(demand), fc.nat(200), fc.nat(200), (demands, a, b) => {
        const stock = new Map([
          ["A", a],
          ["B", b],
        ]);
        const short = shortfalls(demands, stock);
        for (const [code, amount] of stock) {
          const of = (some: StockDemand[]) => some.filter(({ stockCode }) => stockCode === code);
          const wanted = of(demands).reduce((sum, one) => sum + one.amount, 0);
          const missing = short
            .filter(({ stockCode }) => stockCode === code)
            .reduce((sum, one) => sum + one.amount - one.there, 0);
          expect(missing).toBe(Math.max(0, wanted - amount));
        }
      }),
    );
  });
});

describe("the condition of a unit (common practice; caution for damaged cells, blueprint)", () => {
  const all = (result: (typeof CHECK_RESULTS)[number], more: Partial<UnpackResults> = {}) =>
    ({
      ...Object.fromEntries(UNPACK_CHECKS.map((check) => [check, result])),
      ...more,
    }) as UnpackResults;

  test.each([
    ["battery-pack", {}, "sound"],
    ["battery-pack", { packaging: "bad" }, "marked"],
    ["battery-pack", { contents: "bad" }, "marked"],
    ["battery-pack", { "tilt-marker": "bad" }, "damaged"],
    ["inverter", { "tilt-marker": "bad" }, "marked"],
    ["battery-pack", { "tilt-marker": "not-looked-at" }, "sound"],
    ["inverter", { casing: "bad" }, "damaged"],
    ["battery-pack", { terminals: "bad" }, "damaged"],
    ["battery-pack", { "heat-or-smell": "bad" }, "damaged"],
    ["battery-pack", { casing: "bad", terminals: "not-looked-at" }, "damaged"],
  ] as const)("of a %s with %j is %s", (kind, more, condition) => {
    expect(conditionFrom(kind, all("good", more))).toEqual({ ok: true, condition });
  });

  test("what was not looked at on the unit itself is asked for, not taken as good", () => {
    expect(conditionFrom("meter", all("good", { casing: "not-looked-at" }))).toEqual({
      ok: false,
      toLookAt: ["casing"],
    });
    expect(conditionFrom("meter", all("not-looked-at"))).toEqual({
      ok: false,
      toLookAt: ["casing", "terminals", "heat-or-smell"],
    });
  });
});
