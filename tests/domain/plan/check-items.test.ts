import { describe, expect, test } from "vitest";
import { faultsOfItem, MEASURE, sentenceOf } from "./faulty-items.ts";
import { type Draft, draftItem, draftPlan } from "./small-plan.ts";

describe("a fault of one item is told with its place and code", () => {
  test.each<[string, Draft, string]>([
    ["min above max", { limit: { min: 5, max: 4 } }, "…/limit limit"],
    ["above and max alike", { limit: { above: 5, max: 5 } }, "…/limit limit"],
    ["min and below alike", { limit: { min: 5, below: 5 } }, "…/limit limit"],
    ["a unit that is none", { unit: "stone" }, "…/unit unknown-unit"],
    ["a unit in another spelling", { unit: "Volt" }, "…/unit unknown-unit"],
    ["after itself", { after: ["volts"] }, "…/after/0 unknown-item"],
    ["after what is not there", { after: ["done", "gone"] }, "…/after/1 unknown-item"],
    ["twice after the same", { after: ["done", "done"] }, "…/after/1 doubled-id"],
    [
      "an unknown name",
      { limit: { min: { cel: "model.cells * 2" } } },
      "…/limit/min/cel unknown-name",
    ],
    [
      "a text for a bound",
      { limit: { min: { cel: "site.supply" } } },
      "…/limit/min/cel wrong-type",
    ],
    ["a number for a condition", { appliesWhen: "1 + 1" }, "…/appliesWhen wrong-type"],
    ["no expression", { appliesWhen: "1 +" }, "…/appliesWhen syntax"],
    [
      "its own answer in its limit",
      { limit: { min: { cel: "answers.volts" } } },
      "…/limit/min/cel unknown-name",
    ],
    [
      "a photo's answer",
      { limit: { min: { cel: "answers.sign" } } },
      "…/limit/min/cel unknown-name",
    ],
  ])("%s", (_what, more, expected) => {
    expect(faultsOfItem({ ...MEASURE, ...more })).toContain(expected);
  });

  test.each<[string, Draft, string]>([
    [
      "a choice that is not offered",
      { kind: "choose", options: ["A", "B"], limit: { oneOf: ["A", "C"] } },
      "…/limit/oneOf/1 limit",
    ],
    ["an option twice", { kind: "choose", options: ["A", "A"] }, "…/options/1 doubled-id"],
    [
      "a switch twice",
      {
        kind: "set",
        positions: [
          { switch: "1", position: "on" },
          { switch: "1", position: "off" },
        ],
      },
      "…/positions/1/switch doubled-id",
    ],
    [
      "a fastener group twice",
      {
        kind: "confirm",
        repeat: {
          per: "fastener-group",
          groups: [
            { id: "a", title: "A" },
            { id: "a", title: "B" },
          ],
        },
      },
      "…/repeat/groups/1/id doubled-id",
    ],
    [
      "a wrench set in volts",
      { kind: "tighten", points: 2, unit: "V", limit: { min: 2 } },
      "…/unit unknown-unit",
    ],
    [
      "a count between whole numbers",
      { kind: "count", limit: { above: 2, below: 3 } },
      "…/limit limit",
    ],
    ["a count below nothing", { kind: "count", limit: { below: 0 } }, "…/limit limit"],
    ["a word of CEL as its id", { kind: "confirm", id: "in" }, "…/id reserved-id"],
  ])("%s", (_what, item, expected) => {
    expect(faultsOfItem(item)).toContain(expected);
  });

  test("the unit that was meant is named", () => {
    const { unit: _unit, ...rest } = MEASURE;
    const document = draftPlan([draftItem({ ...rest, unit: "Nm" })]);
    expect(sentenceOf(document)).toBe('"Nm" is not the symbol of a unit: write N·m.');
  });
});
