// What a checked plan cannot bring about: it stops, or is still told in words, rather than passing
// for a verdict. Our own choice.
import { describe, expect, test } from "vitest";
import { judgeNumber } from "../../../src/domain/acceptance/judge-number.ts";
import { judgeText } from "../../../src/domain/acceptance/judge-text.ts";
import { obstacleFinding } from "../../../src/domain/acceptance/obstacle.ts";
import type { CompiledItem } from "../../../src/domain/plan/compile.ts";
import { planOf } from "../plan/small-plan.ts";

const FACTS = { rule: "simple", instrument: undefined, unit: undefined, units: [] } as const;
const facts = { ...FACTS, names: () => ({}) };
const itemOf = (limit: NonNullable<CompiledItem["limit"]>): CompiledItem => ({
  ...planOf([{ id: "x", kind: "confirm" }]).items[0]!,
  limit,
});

describe("a limit of a kind that its item cannot have is no verdict", () => {
  test("and none at all is none, on a number", () => {
    const [bare] = planOf([{ id: "x", kind: "confirm" }]).items;
    const reading = { number: 1, typed: "1 V" };
    expect(() => judgeNumber(bare!, reading, "V", facts)).toThrow("x has no limit for a number");
  });

  test("on a number", () => {
    const item = itemOf({ kind: "one-of", values: [1] });
    const reading = { number: 1, typed: "1 V" };
    expect(() => judgeNumber(item, reading, "V", facts)).toThrow("x has no limit for a number");
  });

  test("on a text", () => {
    const item = itemOf({ kind: "count", count: 1 });
    expect(() => judgeText(item, "A", "Chosen: A", "Choose again.", facts)).toThrow(
      "x has a limit that is none for text",
    );
  });
});

test("a breaker that nothing in the plan moves is to be brought to its state by hand", () => {
  const wanted = { breaker: "main", state: "open" } as const;
  const obstacle = { kind: "breaker", wanted, known: undefined, ways: [] } as const;
  expect(obstacleFinding(obstacle, "Europe/London").toClear).toBe(
    'Bring breaker "main" there, so that it is open, then do this again.',
  );
});
