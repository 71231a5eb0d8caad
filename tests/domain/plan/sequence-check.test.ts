// Faults of plans about the sequence of tests. Dead tests before live ones: IEC 60364-6 6.4.3.1,
// from memory; breakers and waiting times: common practice, no source.
import { describe, expect, test } from "vitest";
import { faultsOfItem, sentenceOf } from "./faulty-items.ts";
import { CONFIRM, type Draft, draftItem, draftPlan, faultsOf } from "./small-plan.ts";

const item = (id: string, more: Draft = {}): Draft => draftItem({ id, kind: "confirm", ...more });
const breakers = (stand: Draft | undefined, leaves: Draft | undefined): Draft => ({
  breakers: { ...(stand ? { with: stand } : {}), ...(leaves ? { leaves } : {}) },
});
const OPEN = { main: "open" };
const CLOSED = { main: "closed" };

const faults = (...items: Draft[]): string[] =>
  faultsOf(draftPlan([CONFIRM, ...items])).map((fault) => fault.replace("/stages/0/items/", ""));
describe("the shape of an item's place in the sequence", () => {
  test.each<[string, Draft, string[]]>([
    ["dead", { supply: "dead" }, []],
    ["live", { supply: "live" }, []],
    ["off", { supply: "off" }, ["…/supply shape"]],
    ["no breakers", { breakers: {} }, []],
    ["an empty list of breakers", { breakers: { leaves: {} } }, ["…/breakers/leaves shape"]],
    ["twenty breakers", breakers(undefined, many(20)), []],
    ["twenty-one breakers", breakers(undefined, many(21)), ["…/breakers/leaves shape"]],
    [
      "a breaker half open",
      breakers(undefined, { main: "half" }),
      ["…/breakers/leaves/main shape"],
    ],
    [
      "a breaker called otherwise",
      breakers(undefined, { "Main 1": "open" }),
      ["…/breakers/leaves/Main 1 shape"],
    ],
    ["a wait", { dwell: { after: "done", atLeastS: 300, atMostS: 300 } }, []],
    ["a week", { dwell: { after: "done", atLeastS: 604_800 } }, []],
    [
      "more than a week",
      { dwell: { after: "done", atLeastS: 604_801 } },
      ["…/dwell/atLeastS shape"],
    ],
    [
      "a wait below nothing",
      { dwell: { after: "done", atLeastS: -1 } },
      ["…/dwell/atLeastS shape"],
    ],
    ["a wait without a beginning", { dwell: { atLeastS: 1 } }, ["…/dwell/after shape"]],
    ["what a failure repeats", { onFailRepeat: ["done"] }, []],
    ["an empty list of it", { onFailRepeat: [] }, ["…/onFailRepeat shape"]],
  ])("%s", (_what, more, expected) => {
    expect(faultsOfItem({ kind: "confirm", ...more })).toEqual(expected);
  });

  function many(count: number): Draft {
    return Object.fromEntries(Array.from({ length: count }, (_, index) => [`b${index}`, "open"]));
  }
});

describe("a fault is told with its place", () => {
  test.each<[string, Draft, string]>([
    [
      "a wait for what is not there",
      { dwell: { after: "gone", atLeastS: 1 } },
      "…/dwell/after unknown-item",
    ],
    [
      "a wait for itself",
      { id: "x", dwell: { after: "x", atLeastS: 1 } },
      "…/dwell/after unknown-item",
    ],
    [
      "a wait that ends before it begins",
      { dwell: { after: "done", atLeastS: 2, atMostS: 1 } },
      "…/dwell dwell",
    ],
    [
      "a failure that repeats what is not there",
      { onFailRepeat: ["done", "gone"] },
      "…/onFailRepeat/1 unknown-item",
    ],
    [
      "a failure that repeats itself",
      { id: "x", onFailRepeat: ["x"] },
      "…/onFailRepeat/0 unknown-item",
    ],
    [
      "a failure that repeats one twice",
      { onFailRepeat: ["done", "done"] },
      "…/onFailRepeat/1 doubled-id",
    ],
  ])("%s", (_what, more, expected) => {
    expect(faultsOfItem({ kind: "confirm", ...more })).toEqual([expected]);
  });

  test.each<[string, Draft[], string]>([
    [
      "a breaker that no item leaves any way",
      [item("a", breakers(OPEN, undefined))],
      "1/breakers/with/main unknown-breaker",
    ],
    [
      "a state that no item leaves",
      [item("a", breakers(undefined, CLOSED)), item("b", breakers(OPEN, undefined))],
      "2/breakers/with/main unreachable",
    ],
    [
      "a state that only the item itself leaves",
      [item("a", breakers(OPEN, OPEN))],
      "1/breakers/with/main unreachable",
    ],
    [
      "a state left only after the item itself",
      [
        item("a", breakers(OPEN, undefined)),
        item("b", { after: ["a"], ...breakers(undefined, OPEN) }),
      ],
      "1/breakers/with/main unreachable",
    ],
    [
      "a state left only by what is never asked",
      [
        item("a", { ...breakers(undefined, OPEN), after: ["b"] }),
        item("b", breakers(OPEN, undefined)),
      ],
      "2/breakers/with/main unreachable",
    ],
  ])("%s", (_what, items, expected) => {
    expect(faults(...items)).toEqual([expected]);
  });

  test("two items of which each leaves what the other needs are never begun", () => {
    const items = [item("a", breakers(CLOSED, OPEN)), item("b", breakers(OPEN, CLOSED))];
    expect(faults(...items)).toEqual([
      "1/breakers/with/main unreachable",
      "2/breakers/with/main unreachable",
    ]);
    expect(sentenceOf(draftPlan([CONFIRM, ...items]))).toBe(
      'Breaker "main" is left closed only by what cannot be done before: "b".',
    );
    expect(faults(...items, item("c", breakers(undefined, OPEN)))).toEqual([]);
  });

  test("what only marks is done though its breaker stands otherwise, but is told itself", () => {
    const marked = item("a", { ...breakers(OPEN, OPEN), sequence: "mark" });
    expect(faults(marked)).toEqual([]);
    expect(faults(item("a", { ...breakers(OPEN, undefined), sequence: "mark" }))).toEqual([
      "1/breakers/with/main unknown-breaker",
    ]);
  });

  test.each<[string, Draft[], string]>([
    [
      "waiting times",
      [
        item("a", { dwell: { after: "b", atLeastS: 1 } }),
        item("b", { dwell: { after: "a", atLeastS: 1 } }),
      ],
      "These items wait for each other: a → b → a.",
    ],
    [
      "a repetition of what comes after",
      [item("a", { onFailRepeat: ["b"] }), item("b", { after: ["a"] })],
      "These items wait for each other: a → b → a.",
    ],
    [
      "a dead item that comes after a live one below it",
      [item("a", { supply: "dead", after: ["b"] }), item("b", { supply: "live" })],
      "These items wait for each other: a → b → a. " +
        '"b" is done live, so it waits for the dead hold points before it.',
    ],
  ])("a circle by %s", (_what, items, sentence) => {
    expect(sentenceOf(draftPlan([CONFIRM, ...items]))).toBe(sentence);
  });

  test("a dead hold point that may never apply holds up no live one", () => {
    const never = item("a", { supply: "dead", appliesWhen: "false" });
    expect(faults(never, item("b", { supply: "live" }))).toEqual(["1/appliesWhen unreachable"]);
  });
});
