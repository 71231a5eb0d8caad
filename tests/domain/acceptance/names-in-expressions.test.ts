// What a plan's expressions may read of the site, the units and other answers (CEL, the Common
// Expression Language), and that each unit's limit is its own.
import { describe, expect, test } from "vitest";
import type { JobContext } from "../../../src/domain/plan/context.ts";
import { type Draft, planOf } from "../plan/small-plan.ts";
import { answerAt, contextOf, pack, verdictIn } from "./judged.ts";

const CONFIRM: Draft = { id: "always", kind: "confirm" };

describe("a condition reads", () => {
  const isAsked = (appliesWhen: string, more: Partial<JobContext> = {}, of: Draft = {}) => {
    const plan = planOf([CONFIRM, { id: "asked", kind: "confirm", appliesWhen, ...of }]);
    const subject = of.repeat ? "pack-1" : "";
    return verdictIn(plan, "asked", [], contextOf(more), subject).code === "missing";
  };
  const perUnit = { repeat: { per: "unit" } };
  const inverter = { ...pack(3), id: "inverter-1", kind: "inverter" as const };

  test.each<[string, boolean]>([
    ['site.supply == "TT"', true],
    ['site.region == "uk"', true],
    ['site.region == "GB"', false],
    ['site.country == "GB"', true],
    ["count.batteryPack == 2", true],
    ["count.inverter == 1", true],
    ["count.gateway == 0", true],
    ["count.meter == 0", true],
    ["count.isolator == 0", true],
    ["count.batteryPack + count.inverter == 2", false],
  ])("of the job: %s is %s", (condition, expected) => {
    expect(isAsked(condition, { units: [pack(1), pack(2), inverter] })).toBe(expected);
  });

  test.each<[string, boolean]>([
    ['unit.serial == "KH00001"', true],
    ['unit.kind == "battery-pack"', true],
    ['unit.kind == "inverter"', false],
    ['unit.hardwareRevision == "B"', true],
    ["unit.position == 1", true],
    ["unit.position == 2", false],
  ])("of the unit: %s is %s", (condition, expected) => {
    const units = [pack(1, { hardwareRevision: "B" })];
    expect(isAsked(condition, { units }, perUnit)).toBe(expected);
  });
});

describe("a limit reads an answer", () => {
  const other = (more: Draft): Draft => ({ id: "other", holdPoint: false, ...more });
  const tighten = { kind: "tighten", points: 1, unit: "N·m", limit: { min: 1 } };
  const torque = (number: unknown) => ({ points: [1], setting: { number, unit: "N·m" } });

  /** The limit is 10 V where the condition holds, and 90 V where it does not. */
  const limitOf = (item: Draft, value: unknown, condition: string) => {
    const min = { cel: `${condition} ? 10 : 90` };
    const reading = { id: "reading", kind: "measure", unit: "V", limit: { min } };
    const answers = [
      answerAt(1, "other", value, { instrumentId: "wrench" }),
      answerAt(2, "reading", { number: 50, unit: "V" }),
    ];
    return verdictIn(planOf([other(item), reading]), "reading", answers).sentence;
  };
  const atLeast = (volts: number) => `Read 50 V; needed at least ${volts} V.`;

  test.each<[Draft, unknown, string, string]>([
    [{ kind: "confirm" }, { done: true }, "answers.other", atLeast(10)],
    [{ kind: "count", limit: { min: 1 } }, { count: 3 }, "answers.other == 3", atLeast(10)],
    [{ kind: "count", limit: { min: 1 } }, { count: 3 }, "answers.other > 3", atLeast(90)],
    [{ kind: "choose", options: ["A", "B"] }, { choice: "B" }, 'answers.other == "B"', atLeast(10)],
    [
      { kind: "identify", what: "firmware-level" },
      { text: " 2.4 " },
      'answers.other == "2.4"',
      atLeast(10),
    ],
    [tighten, torque(6), "answers.other == 6", atLeast(10)],
  ])("of %j %j: %s", (item, value, condition, expected) => {
    expect(limitOf(item, value, condition)).toBe(expected);
  });

  test("but none that was kept and cannot be read", () => {
    expect(limitOf({ kind: "confirm" }, { done: "yes" }, "answers.other")).toBe(
      "Read 50 V. The limit cannot be worked out: answers.other is not known here. " +
        'Taken before "other" was met.',
    );
  });

  test("but none beyond the range, which is no number", () => {
    expect(limitOf(tighten, torque(">6"), "answers.other > 5")).toBe(
      "Read 50 V. The limit cannot be worked out: answers.other is not known here.",
    );
  });
});

describe("a limit worked out from the unit is each unit's own", () => {
  const units = [
    pack(1, { attributes: { nominalVoltageV: 51.2 } }),
    pack(2, { attributes: { nominalVoltageV: 48 } }),
  ];
  const cel = "model.nominalVoltageV";
  const needed = (limit: Draft) => {
    const item = { id: "volts", kind: "measure", unit: "V", limit, repeat: { per: "unit" } };
    const plan = planOf([item], { attributes: { nominalVoltageV: "number" } });
    return ["pack-1", "pack-2"].map(
      (subject) => verdictIn(plan, "volts", [], contextOf({ units }), subject).needed,
    );
  };

  test.each<[Draft, string[]]>([
    [{ min: { cel } }, ["at least 51.2 V", "at least 48 V"]],
    [{ above: { cel } }, ["more than 51.2 V", "more than 48 V"]],
    [{ max: { cel } }, ["at most 51.2 V", "at most 48 V"]],
    [{ below: { cel } }, ["less than 51.2 V", "less than 48 V"]],
    [
      { min: 1, max: { cel } },
      ["at least 1 V and at most 51.2 V", "at least 1 V and at most 48 V"],
    ],
    [{ nominal: { cel }, tolerance: { percent: 1 } }, ["51.2 V ± 1 %", "48 V ± 1 %"]],
    [{ min: 40 }, ["at least 40 V", "at least 40 V"]],
    [{ nominal: 40, tolerance: { absolute: 1 } }, ["40 V ± 1 V", "40 V ± 1 V"]],
  ])("%j: %j", (limit, expected) => {
    expect(needed(limit)).toEqual(expected);
  });
});
