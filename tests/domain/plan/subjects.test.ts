import { describe, expect, test } from "vitest";
import type { UnitFacts } from "../../../src/domain/plan/context.ts";
import { type Subject, subjectsOf } from "../../../src/domain/plan/subjects.ts";
import { type Draft, planOf } from "./small-plan.ts";

const unit = (id: string, kind: UnitFacts["kind"], position: number): UnitFacts => ({
  id,
  kind,
  position,
  serial: `S${position}`,
  modelCode: "KESTREL-5",
  attributes: {},
});
const UNITS = [
  unit("p1", "battery-pack", 1),
  unit("i1", "inverter", 2),
  unit("p2", "battery-pack", 3),
];

const subjects = (repeat: Draft | undefined, units: UnitFacts[] = UNITS): readonly Subject[] => {
  const plan = planOf([{ id: "item", kind: "confirm", ...(repeat ? { repeat } : {}) }]);
  return subjectsOf(plan.items[0]!.item, { units });
};

describe("what an item is asked for", () => {
  test.each<[string, Draft | undefined, string[]]>([
    ["the job, once", undefined, [""]],
    ["every unit", { per: "unit" }, ["p1", "i1", "p2"]],
    ["every pack", { per: "unit", ofKind: "battery-pack" }, ["p1", "p2"]],
    ["no unit of its kind", { per: "unit", ofKind: "meter" }, []],
    [
      "every group",
      {
        per: "fastener-group",
        groups: [
          { id: "top", title: "Top" },
          { id: "low", title: "Low" },
        ],
      },
      ["top", "low"],
    ],
    ["three times", { times: 3 }, ["1", "2", "3"]],
  ])("%s", (_what, repeat, keys) => {
    expect(subjects(repeat).map(({ key }) => key)).toEqual(keys);
  });

  test("units are named by model and serial and handed on", () => {
    expect(subjects({ per: "unit", ofKind: "inverter" })).toEqual([
      { key: "i1", label: "KESTREL-5 S2", unit: UNITS[1] },
    ]);
  });
});
