import { describe, expect, test } from "vitest";
import { CONFIRM, type Draft, draftItem, draftPlan, faultsOf } from "./small-plan.ts";

const perUnit = { repeat: { per: "unit" } };
const perPack = { repeat: { per: "unit", ofKind: "battery-pack" } };
const groups = (...ids: string[]) => ({
  repeat: { per: "fastener-group", groups: ids.map((id) => ({ id, title: id })) },
});
const times = (n: number) => ({ repeat: { times: n } });
const measure = (id: string, more: Draft): Draft =>
  draftItem({ id, kind: "measure", unit: "V", limit: { min: 1 }, ...more });

/** Whether an item may read this in the bound of its limit. */
function mayRead(cel: string, reader: Draft, other: Draft = {}, attributes: Draft = {}): boolean {
  const items = [
    CONFIRM,
    measure("x", other),
    measure("y", { limit: { min: { cel } }, ...reader }),
  ];
  const faults = faultsOf(draftPlan(items, { attributes }));
  if (faults.some((fault) => !fault.endsWith(" unknown-name"))) throw new Error(faults.join());
  return faults.length === 0;
}

describe("the product model and the unit can be read by items asked per unit only", () => {
  const attributes = { cells: "number" };
  test.each([
    ["model.cells", perUnit, true],
    ["model.cells", perPack, true],
    ["model.cells", {}, false],
    ["model.cells", times(2), false],
    ["model.cells", groups("a"), false],
    ["model.packs", perUnit, false],
    ["unit.position", perPack, true],
    ["unit.position", {}, false],
  ])("%s by %j: %s", (cel, reader, expected) => {
    expect(mayRead(cel, reader, {}, attributes)).toBe(expected);
  });
});

describe("another item's answer can be read where it is clear which one is meant", () => {
  test.each([
    ["asked once, by one asked once", {}, {}, true],
    ["asked once, by one asked per unit", perUnit, {}, true],
    ["asked per pack, by one asked per pack", perPack, perPack, true],
    ["asked per unit, by one asked per pack", perPack, perUnit, true],
    ["asked per pack, by one asked per unit", perUnit, perPack, false],
    ["asked per pack, by one asked once", {}, perPack, false],
    ["asked twice, by one asked twice", times(2), times(2), true],
    ["asked twice, by one asked three times", times(3), times(2), false],
    ["asked per group, by one asked of some of them", groups("a"), groups("a", "b"), true],
    ["asked per group, by one asked of more", groups("a", "b"), groups("a"), false],
    ["asked per group, by one asked per unit", perUnit, groups("a"), false],
  ])("%s: %s", (_what, reader, other, expected) => {
    expect(mayRead("answers.x", reader, other)).toBe(expected);
  });
});

describe("all readings of a repeated item can be read together", () => {
  test.each([
    ["of one asked per pack, by one asked once", {}, perPack, true],
    ["of one asked per pack, by one asked per pack", perPack, perPack, true],
    ["of one asked once", {}, {}, false],
  ])("%s: %s", (_what, reader, other, expected) => {
    expect(mayRead("highest(readings.x)", reader, other)).toBe(expected);
  });
});

describe("what an answer is to an expression depends on the kind of item", () => {
  test.each<[Draft, string, string[]]>([
    [{ kind: "confirm" }, "answers.x", []],
    [{ kind: "choose", options: ["A", "B"] }, 'answers.x == "A"', []],
    [{ kind: "identify", what: "firmware-level" }, 'answers.x.startsWith("2.")', []],
    [{ kind: "count", limit: { min: 1 } }, "answers.x > 3", []],
    [{ kind: "tighten", points: 1, unit: "N·m", limit: { min: 1 } }, "answers.x > 3", []],
    [{ kind: "photo", photos: 1 }, "answers.x", ["unknown-name"]],
    [{ kind: "sign", whose: "customer" }, "answers.x", ["unknown-name"]],
    [{ kind: "confirm" }, "answers.x > 3", ["wrong-type"]],
  ])("%j read as %s", (item, appliesWhen, codes) => {
    const document = draftPlan([
      CONFIRM,
      draftItem({ ...item, id: "x" }),
      measure("y", { appliesWhen }),
    ]);
    expect(faultsOf(document).map((fault) => fault.split(" ")[1])).toEqual(codes);
  });
});
