// Times are compared as instants, however they are written (RFC 3339).
import fc from "fast-check";
import { Temporal } from "temporal-polyfill";
import { expect, test } from "vitest";
import { byMoment } from "../../../src/domain/acceptance/timeline.ts";
import { answerAt } from "./judged.ts";

const time = fc
  .record({
    second: fc.integer({ min: 0, max: 90 }),
    fraction: fc.constantFrom("", ".5", ".500", ".25"),
    offset: fc.constantFrom("Z", "+00:00", "+01:00", "-03:30"),
  })
  .map(({ second, fraction, offset }) => {
    const local = Temporal.PlainDateTime.from("2026-10-25T00:59:00").add({ seconds: second });
    return `${local.toString({ smallestUnit: "second" })}${fraction}${offset}`;
  });

test("two answers are in the order of their instants, or of receipt where those are one", () => {
  fc.assert(
    fc.property(time, time, (left, right) => {
      const one = answerAt(0, "a", {}, { takenAt: left });
      const two = answerAt(1, "a", {}, { takenAt: right });
      const instants = Temporal.Instant.compare(left, right);
      expect(Math.sign(byMoment(one, two))).toBe(instants === 0 ? -1 : instants);
    }),
    { numRuns: 2000 },
  );
});

test.each([
  ["2026-10-25T09:00:00Z", "2026-10-25t09:00:01Z"],
  ["2026-10-25t09:00:00Z", "2026-10-25T09:00:01Z"],
  ["2026-10-25T09:00:00.5Z", "2026-10-25T09:00:00.75Z"],
])("however they are written (RFC 3339 5.6): %s, %s", (first, second) => {
  const one = answerAt(1, "a", {}, { takenAt: first });
  const two = answerAt(0, "a", {}, { takenAt: second });
  expect([byMoment(one, two) < 0, byMoment(two, one) < 0]).toEqual([true, false]);
});

test("answers of one moment are in the order of receipt, then of their ids; one is no two", () => {
  const of = (order: number, id: string) =>
    answerAt(0, "a", {}, { takenAt: "2026-10-25T09:00:00Z", order, id });
  const signs = (left: [number, string], right: [number, string]) =>
    Math.sign(byMoment(of(...left), of(...right)));
  expect(signs([1, "b"], [2, "a"])).toBe(-1);
  expect(signs([2, "a"], [1, "b"])).toBe(1);
  expect(signs([1, "a"], [1, "b"])).toBe(-1);
  expect(signs([1, "b"], [1, "a"])).toBe(1);
  expect(signs([1, "a"], [1, "a"])).toBe(0);
});
