// Whether a new limit is stricter or looser. It follows from what a limit is: a set of accepted
// values; fewer of them is stricter.
import { describe, expect, test } from "vitest";
import { VOLTAGE, weights } from "./diff-pairs.ts";

describe("a limit", () => {
  test.each([
    [{ min: 10 }, { min: 11 }, "stricter"],
    [{ min: 10 }, { min: 9 }, "looser"],
    [{ max: 20 }, { max: 19 }, "stricter"],
    [{ max: 20 }, { max: 20.1 }, "looser"],
    [{ min: 10 }, { above: 10 }, "stricter"],
    [{ below: 20 }, { max: 20 }, "looser"],
    [{ min: 10 }, { min: 10, max: 20 }, "stricter"],
    [{ min: 10, max: 20 }, { max: 20 }, "looser"],
    [{ min: 10, max: 20 }, { min: 11, max: 21 }, "different"],
    [{ min: 10, max: 20 }, { min: 11, max: 19 }, "stricter"],
    [{ nominal: 10, tolerance: { percent: 5 } }, { min: 9.5, max: 10.5 }, "wording"],
    [
      { nominal: 10, tolerance: { percent: 5 } },
      { nominal: 10, tolerance: { absolute: 0.4 } },
      "stricter",
    ],
    [{ min: { cel: "model.a" } }, { min: { cel: "model.a" }, max: 20 }, "stricter"],
    [{ min: { cel: "model.a" } }, { above: { cel: "model.a" } }, "stricter"],
    [{ min: { cel: "model.a" }, max: 20 }, { min: { cel: "model.a" }, max: 21 }, "looser"],
    [{ min: { cel: "model.a" } }, { min: { cel: "model.b" } }, "different"],
    [{ min: { cel: "model.a" } }, { min: 10 }, "different"],
    [
      { nominal: { cel: "model.a" }, tolerance: { percent: 5 } },
      { nominal: { cel: "model.a" }, tolerance: { percent: 6 } },
      "looser",
    ],
    [
      { nominal: { cel: "model.a" }, tolerance: { percent: 5 } },
      { nominal: { cel: "model.a" }, tolerance: { absolute: 5 } },
      "different",
    ],
    [{ expression: "value > 1" }, { expression: "value > 2" }, "different"],
    [{ expression: "value > 1" }, { expression: "value > 1", words: "more than one" }, "wording"],
  ])("%j → %j is %s", (before, after, weight) => {
    const perUnit = { ...VOLTAGE, repeat: { per: "unit" } };
    const attributes = { a: "number", b: "number" };
    const found = weights(perUnit, { limit: before }, { limit: after }, attributes);
    expect(found).toEqual([`limit ${weight}`]);
  });

  // 1 in = 25.4 mm exactly (NIST SP 811, from memory).
  test.each([
    [{ min: 2, max: 4 }, { min: 50.8, max: 101.6 }, ["unit wording", "limit wording"]],
    [{ min: 2, max: 4 }, { min: 50.8, max: 101.5 }, ["unit wording", "limit stricter"]],
    [{ min: 2, max: 4 }, { min: 50.7, max: 101.6 }, ["unit wording", "limit looser"]],
  ])("in inches %j → in millimetres %j: %j", (before, after, expected) => {
    const gap = { ...VOLTAGE, instrument: { class: "tape" } };
    expect(weights(gap, { unit: "in", limit: before }, { unit: "mm", limit: after })).toEqual(
      expected,
    );
  });

  test("in another quantity is different, and so is its unit", () => {
    const found = weights(VOLTAGE, { unit: "V" }, { unit: "A", limit: { min: 10, max: 19 } });
    expect(found).toEqual(["unit different", "limit different"]);
  });

  test.each([
    [{ above: 2 }, { min: 3 }, "wording"],
    [{ max: 5 }, { min: 0, max: 5 }, "wording"],
    [{ max: 5 }, { below: 5 }, "stricter"],
    [{ count: 4 }, { min: 4 }, "looser"],
  ])("on a count, %j → %j is %s", (before, after, weight) => {
    const count = { id: "packs", kind: "count" };
    expect(weights(count, { limit: before }, { limit: after })).toEqual([`limit ${weight}`]);
  });

  test.each([
    [{}, { limit: { oneOf: ["a", "b"] } }, ["limit stricter"]],
    [{}, { limit: { oneOf: ["a", "b", "c"] } }, ["limit wording"]],
    [{ limit: { oneOf: ["a"] } }, { limit: { oneOf: ["a", "c"] } }, ["limit looser"]],
    [{ limit: { oneOf: ["a"] } }, { limit: { oneOf: ["b"] } }, ["limit different"]],
    [{}, { options: ["a", "b"] }, ["options stricter"]],
    [{}, { options: ["a", "b", "c", "d"] }, ["options looser"]],
  ])("on a choice, %j → %j is %j", (before, after, expected) => {
    const choice = { id: "wall", kind: "choose", options: ["a", "b", "c"] };
    expect(weights(choice, before, after)).toEqual(expected);
  });

  test.each([
    [{ expression: "value != 'a'", words: "another than a" }, "limit wording"],
    [{ expression: "value != 'b'" }, "limit different"],
  ])("on a level read, an expression → %j is %s", (limit, expected) => {
    const level = { id: "level", kind: "identify", what: "firmware-level" };
    const before = { limit: { expression: "value != 'a'" } };
    expect(weights(level, before, { limit })).toEqual([expected]);
  });
});
