// What a new version of a plan changes. Rules on uncertainty: ILAC-G8:09/2019, 4.2.
import { describe, expect, test } from "vitest";
import { diffPlans } from "../../../src/domain/plan/diff.ts";
import { mergedOrder, movedMembers } from "../../../src/domain/plan/diff-order.ts";
import { checked, itemDiff, stagedPlan, VOLTAGE, weights } from "./diff-pairs.ts";
import { CONFIRM, draftItem, draftPlan } from "./small-plan.ts";

describe("a field", () => {
  test.each([
    [{ holdPoint: false }, { holdPoint: true }, ["holdPoint stricter"]],
    [{ holdPoint: true }, { holdPoint: false }, ["holdPoint looser"]],
    [
      { holdPoint: false, safetyCritical: true },
      { holdPoint: true, safetyCritical: true },
      ["holdPoint wording"],
    ],
    [{}, { safetyCritical: true }, ["safetyCritical stricter"]],
    [{ safetyCritical: true }, {}, ["safetyCritical looser"]],
    [{}, { repeat: { times: 3 } }, ["repeat stricter"]],
    [{ repeat: { times: 3 } }, { repeat: { times: 2 } }, ["repeat looser"]],
    [{}, { repeat: { per: "unit" } }, ["repeat different"]],
    [
      { repeat: { per: "unit", ofKind: "meter" } },
      { repeat: { per: "unit" } },
      ["repeat stricter"],
    ],
    [{}, { evidence: { photos: 1 } }, ["evidence stricter"]],
    [{ evidence: { photos: 2, note: true } }, { evidence: { photos: 1 } }, ["evidence looser"]],
    [{ evidence: { photos: 2 } }, { evidence: { photos: 1, note: true } }, ["evidence different"]],
    [{ after: ["first"] }, { after: ["first", "second"] }, ["after stricter"]],
    [{ after: ["first"] }, { after: ["second"] }, ["after different"]],
    [{ after: ["first", "second"] }, { after: ["second", "first"] }, ["after wording"]],
    [{}, { sequence: "mark" }, ["sequence looser"]],
    [{}, { sequence: "block" }, ["sequence wording"]],
    [{}, { appliesWhen: "count.meter > 0" }, ["appliesWhen looser"]],
    [
      { appliesWhen: "count.meter > 0" },
      { appliesWhen: "count.meter > 1" },
      ["appliesWhen different"],
    ],
    [{ instrument: { class: "tape" } }, {}, ["instrument different"]],
    [{ instrument: undefined }, {}, ["instrument stricter"]],
    [{ decisionRule: "guarded" }, { decisionRule: "four-way" }, ["decisionRule looser"]],
    [{}, { decisionRule: "four-way" }, ["decisionRule stricter"]],
    [{}, { decisionRule: "simple" }, ["decisionRule wording"]],
    [{}, { do: "Otherwise" }, ["do wording"]],
    [{}, { cautions: ["Live."] }, ["cautions stricter"]],
    [{ cautions: ["Live."] }, { cautions: ["It is live."] }, ["cautions wording"]],
    [
      { dwell: { after: "first", atLeastS: 60 } },
      { dwell: { after: "first", atLeastS: 120 } },
      ["dwell stricter"],
    ],
    [
      { dwell: { after: "first", atLeastS: 60 } },
      { dwell: { after: "first", atLeastS: 30, atMostS: 90 } },
      ["dwell different"],
    ],
    [{ onFailRepeat: ["first", "second"] }, { onFailRepeat: ["first"] }, ["onFailRepeat looser"]],
  ])("from %j to %j: %j", (before, after, expected) => {
    expect(weights(VOLTAGE, before, after)).toEqual(expected);
  });

  test("of torque work names no instrument and a torque wrench alike", () => {
    const bolts = { id: "bolts", kind: "tighten", points: 4, unit: "N·m" };
    const limit = { nominal: 8, tolerance: { percent: 4 } };
    const named = { limit, instrument: { class: "torque-wrench" } };
    expect(weights(bolts, { limit }, named)).toEqual(["instrument wording"]);
    expect(weights(bolts, { limit }, { limit, points: 6 })).toEqual(["points stricter"]);
  });

  test("of another kind of item is different, and concerns everybody", () => {
    const changes = itemDiff(VOLTAGE, { id: "volts", kind: "confirm", title: "Volts" });
    expect(changes.map(({ field, weight }) => `${field} ${weight}`)).toContain("kind different");
    expect(changes.find(({ field }) => field === "kind")?.concerns).toEqual([
      "installer",
      "office",
      "manager",
    ]);
    expect(changes.find(({ field }) => field === "limit")?.weight).toBe("different");
  });
});

describe("a change is told", () => {
  test.each([
    [
      { limit: { max: 1.1 } },
      { limit: { max: 0.9 } },
      '"Volts": what is accepted is at most 0.9 V instead of at most 1.1 V.',
    ],
    [
      { limit: { expression: "value > 1", words: "enough" } },
      { limit: { expression: "value > 2", words: "enough" } },
      '"Volts": what is accepted is enough (value > 2) instead of enough (value > 1).',
    ],
    [
      {},
      { instrument: { class: "voltage-tester" } },
      '"Volts": the instrument is voltage-tester instead of multimeter.',
    ],
    [{}, { safetyCritical: true }, '"Volts" is now safety-critical: nobody can concede it.'],
    [
      { after: ["first"] },
      { after: ["first", "second"] },
      '"Volts": what comes before it is "First" and "Second" instead of "First".',
    ],
    [{}, { title: "Voltage" }, '"Volts" is now called "Voltage".'],
    [{}, { why: "Because." }, '"Volts": the reason is written otherwise.'],
    [
      {},
      { evidence: { photos: 2, note: true } },
      '"Volts": the evidence is 2 photos and a note instead of none.',
    ],
  ])("from %j to %j: %s", (before, after, sentence) => {
    const [change] = itemDiff({ ...VOLTAGE, ...before }, { ...VOLTAGE, ...after });
    expect(change?.sentence).toBe(sentence);
  });

  test("to the office where instruments change, to the manager where concessions do", () => {
    const [instrument] = itemDiff(VOLTAGE, { ...VOLTAGE, instrument: { class: "clamp-meter" } });
    expect(instrument?.concerns).toEqual(["installer", "office"]);
    const [safety] = itemDiff(VOLTAGE, { ...VOLTAGE, safetyCritical: true });
    expect(safety?.concerns).toEqual(["installer", "manager"]);
  });
});

describe("a plan", () => {
  const small = (more: object) => checked(draftPlan([CONFIRM].map(draftItem), { ...more }));

  test("tells its title, its rule and the attributes that product models need", () => {
    const before = small({ attributes: { gone: "flag", other: "number" } });
    const after = small({
      ...{ title: "Another", decisionRule: "guarded" },
      attributes: { other: "text", fresh: "number" },
    });
    const { changes } = diffPlans(before, after);
    expect(changes.map(({ kind, field, weight }) => `${kind} ${field} ${weight}`)).toEqual([
      "renamed title wording",
      "changed decisionRule stricter",
      "added attributes.fresh different",
      "removed attributes.gone different",
      "changed attributes.other different",
    ]);
  });

  test("tells stages and items that came, went and moved, in its own order", () => {
    const before = stagedPlan({ a: ["a1", "a2", "a3"], b: ["b1"], c: ["c1", "c2"], d: ["d1"] });
    const after = stagedPlan({ d: ["d1"], a: ["a3", "a1", "a2", "new1"], c: ["c2", "b1"] });
    const told = diffPlans(before, after).changes.map(
      ({ kind, stageId, itemId }) => `${kind} ${stageId}${itemId ? ` ${itemId}` : ""}`,
    );
    expect(told).toEqual([
      ...["moved d", "moved a a3", "added a new1", "removed b"],
      ...["removed c c1", "moved c b1"],
    ]);
  });

  test("tells which instruments are to be brought and which no longer", () => {
    const plan = (item: object) =>
      checked(draftPlan([CONFIRM, { ...VOLTAGE, ...item }].map(draftItem)));
    const { instruments } = diffPlans(plan({}), plan({ instrument: { class: "clamp-meter" } }));
    expect(instruments).toEqual({ toBring: ["clamp-meter"], noLonger: ["multimeter"] });
  });
});

describe("an order", () => {
  test("keeps a removed member behind the one that it followed", () => {
    expect(mergedOrder(["x", "a", "y", "b"], ["b", "a"])).toEqual(["x", "b", "a", "y"]);
  });

  test("calls the fewest members moved", () => {
    expect([...movedMembers(["a", "b", "c", "d"], ["d", "a", "b", "c"])]).toEqual(["d"]);
    expect([...movedMembers(["a", "b"], ["a", "new", "b"])]).toEqual([]);
    expect(movedMembers(["a", "b", "c"], ["c", "b", "a"]).size).toBe(2);
  });
});
