import { describe, expect, test } from "vitest";
import { checkPlan } from "../../../src/domain/plan/check.ts";
import { faultsOfItem, MEASURE, sentenceOf } from "./faulty-items.ts";
import { CONFIRM, type Draft, draftItem, draftPlan, faultsOf } from "./small-plan.ts";

describe("a fault of the whole plan is told", () => {
  test("an item id used twice, in another stage too", () => {
    const stages = ["one", "two"].map((id) => ({ id, title: id, items: [CONFIRM] }));
    expect(faultsOf(draftPlan([], { stages }))).toEqual(["/stages/1/items/0/id doubled-id"]);
  });

  test("a stage id used twice", () => {
    const stages = ["a", "b"].map((id) => ({ id: "s", title: id, items: [{ ...CONFIRM, id }] }));
    expect(faultsOf(draftPlan([], { stages }))).toEqual(["/stages/1/id doubled-id"]);
  });

  test("no hold point", () => {
    const document = draftPlan([{ ...CONFIRM, holdPoint: false }]);
    expect(faultsOf(document)).toEqual(["/stages no-hold-point"]);
  });

  test("a safety-critical item is a hold point, whatever it says", () => {
    const critical = { ...CONFIRM, holdPoint: false, safetyCritical: true };
    expect(faultsOf(draftPlan([critical]))).toEqual([]);
  });

  test("hold points that may all turn out not to apply", () => {
    const document = draftPlan([{ ...CONFIRM, appliesWhen: 'site.supply == "TT"' }]);
    expect(faultsOf(document)).toEqual(["/stages no-hold-point"]);
  });

  test("300 items are accepted and 301 are not", () => {
    const items = (n: number) => Array.from({ length: n }, (_, i) => ({ ...CONFIRM, id: `i${i}` }));
    const stages = (n: number) => [
      { id: "a", title: "A", items: items(200) },
      { id: "b", title: "B", items: items(n).slice(200) },
    ];
    expect(faultsOf(draftPlan([], { stages: stages(300) }))).toEqual([]);
    expect(faultsOf(draftPlan([], { stages: stages(301) }))).toEqual(["/stages too-many-items"]);
  });
});

describe("items that nobody could ever answer are found", () => {
  const measure = (id: string, more: Draft) => draftItem({ ...MEASURE, id, ...more });
  const bound = (id: string) => ({ limit: { min: { cel: `answers.${id}` } } });

  test.each<[string, Draft[], string]>([
    [
      "after in a circle",
      [measure("a", { after: ["b"] }), measure("b", { after: ["a"] })],
      "a → b → a",
    ],
    ["bounds in a circle", [measure("a", bound("b")), measure("b", bound("a"))], "a → b → a"],
    ["after and a bound", [measure("a", { after: ["b"] }), measure("b", bound("a"))], "a → b → a"],
    [
      "a condition and after",
      [measure("a", { appliesWhen: "answers.b > 1" }), measure("b", { after: ["a"] })],
      "a → b → a",
    ],
    [
      "three in a circle",
      [measure("a", bound("b")), measure("b", bound("c")), measure("c", { after: ["a"] })],
      "a → b → c → a",
    ],
  ])("%s", (_what, items, circle) => {
    const document = draftPlan([CONFIRM, ...items]);
    expect(faultsOf(document).every((fault) => fault.endsWith(" circle"))).toBe(true);
    expect(sentenceOf(document)).toBe(`These items wait for each other: ${circle}.`);
  });

  test.each(["false", "1 > 2", "1 == 2 || 'a' == 'b'", 'false && site.supply == "TT"'])(
    "a condition that is never true: %s",
    (appliesWhen) => {
      expect(faultsOfItem({ ...MEASURE, appliesWhen })).toEqual(["…/appliesWhen unreachable"]);
    },
  );

  test.each<[string, Draft]>([
    ["after", { after: ["never"] }],
    ["its bound", bound("never")],
  ])("an item that needs one that is never asked, by %s", (_what, more) => {
    const never = measure("never", { appliesWhen: "false" });
    expect(faultsOf(draftPlan([CONFIRM, never, measure("b", more)]))).toEqual([
      "/stages/0/items/1/appliesWhen unreachable",
      "/stages/0/items/2 unreachable",
    ]);
  });

  test("a condition that this job decides is none", () => {
    expect(faultsOfItem({ ...MEASURE, appliesWhen: 'site.supply == "TT"' })).toEqual([]);
  });
});

describe("what deserves a look is a warning", () => {
  const warningsOf = (item: Draft): string[] => {
    const checked = checkPlan(draftPlan([CONFIRM, draftItem(item)]));
    return checked.ok
      ? checked.warnings.map(({ pointer, code }) => `${pointer} ${code}`)
      : ["faulty"];
  };

  test.each<[string, Draft, string[]]>([
    ["a measurement without an instrument", MEASURE, ["/stages/0/items/1 no-instrument"]],
    ["one with", { ...MEASURE, instrument: { class: "multimeter" } }, []],
    [
      "an unusual class",
      { ...MEASURE, instrument: { class: "multimetre" } },
      ["/stages/0/items/1/instrument/class unusual-instrument"],
    ],
    [
      "a condition that always holds",
      { kind: "confirm", appliesWhen: "1 < 2" },
      ["/stages/0/items/1/appliesWhen always-applies"],
    ],
    [
      "an expression that nobody said in words",
      { kind: "count", limit: { expression: "value > 1" } },
      ["/stages/0/items/1/limit no-words"],
    ],
    [
      "one that somebody did",
      { kind: "count", limit: { expression: "value > 1", words: "more than one" } },
      [],
    ],
  ])("%s", (_what, item, expected) => {
    expect(warningsOf(item)).toEqual(expected);
  });

  test("an item that needs a later one", () => {
    const early = draftItem({ id: "early", kind: "confirm", after: ["done"] });
    const checked = checkPlan(draftPlan([early, CONFIRM]));
    expect(checked).toMatchObject({
      ok: true,
      warnings: [{ pointer: "/stages/0/items/0", code: "needs-later-item" }],
    });
  });
});
