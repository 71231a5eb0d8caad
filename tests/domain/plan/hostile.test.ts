// Documents and expressions made to hang, crash or poison the check; all must simply be refused,
// and names that JavaScript has a meaning for must be plain names.
import { describe, expect, test } from "vitest";
import { closeOut } from "../../../src/domain/closeout/gate.ts";
import { checkPlan } from "../../../src/domain/plan/check.ts";
import { compilePlan } from "../../../src/domain/plan/compile.ts";
import { answerAt, contextOf, pack } from "../acceptance/judged.ts";
import { CONFIRM, type Draft, draftItem, draftPlan, faultsOf } from "./small-plan.ts";

function nested(levels: number): unknown {
  let document: unknown = "end";
  for (let level = 0; level < levels; level += 1) document = { stages: [document] };
  return document;
}

function circular(): unknown {
  const document: Draft = draftPlan([CONFIRM]);
  document.stages = [document];
  return document;
}

describe("a document that is too much is refused before it is read", () => {
  test.each<[string, unknown, string]>([
    ["10,000 levels", nested(10_000), "A plan is at most 12 levels deep."],
    ["a circle", circular(), "A plan is at most 12 levels deep."],
    [
      "a million items",
      draftPlan(Array.from({ length: 1_000_000 }, () => 1 as unknown as Draft)),
      "A plan holds at most 60000 values and 524288 characters.",
    ],
    [
      "a text of a megabyte",
      draftPlan([{ ...CONFIRM, do: "x".repeat(1_048_576) }]),
      "A plan holds at most 60000 values and 524288 characters.",
    ],
    [
      "a hundred thousand fields",
      Object.fromEntries(Array.from({ length: 100_000 }, (_, n) => [`f${n}`, n])),
      "A plan holds at most 60000 values and 524288 characters.",
    ],
  ])("%s", (_what, document, sentence) => {
    expect(checkPlan(document)).toEqual({
      ok: false,
      problems: [{ pointer: "", code: "shape", sentence }],
    });
  });

  test.each<[string, unknown]>([
    ["null", null],
    ["a number", Number.NaN],
    ["a list", [draftPlan([CONFIRM])]],
    ["a function", () => draftPlan([CONFIRM])],
    ["a date", new Date(0)],
    ["a map", new Map([["schema", "plan/1"]])],
  ])("%s is no plan", (_what, document) => {
    expect(checkPlan(document).ok).toBe(false);
  });

  test("of very many faults a hundred are told", () => {
    const faulty = Array.from({ length: 200 }, (_, n) => draftItem({ id: `i${n}`, kind: "weigh" }));
    expect(faultsOf(draftPlan(faulty))).toHaveLength(100);
  });
});

describe("a plan as large as allowed", () => {
  const measures = (count: number, limitOf: (n: number) => Draft): Draft[] =>
    Array.from({ length: count }, (_, n) =>
      draftItem({ id: `i${n}`, kind: "measure", unit: "V", limit: limitOf(n) }),
    );

  test("with 300 items in a chain of bounds is checked, and its gate stays shut", () => {
    const items = measures(300, (n) =>
      n === 0 ? { min: 1 } : { min: { cel: `answers.i${n - 1} + 1` } },
    );
    const checked = checkPlan(draftPlan(items));
    if (!checked.ok) throw new Error(checked.problems[0]?.sentence);
    const result = closeOut(compilePlan(checked.plan), [], contextOf());
    expect(result.blockers).toHaveLength(300);
  });

  test("with 300 answers in that chain, each is judged by the one before it", () => {
    const items = measures(300, (n) =>
      n === 0 ? { min: 1 } : { min: { cel: `answers.i${n - 1} + 1` } },
    );
    const checked = checkPlan(draftPlan(items));
    if (!checked.ok) throw new Error(checked.problems[0]?.sentence);
    const answers = items.map((_, n) =>
      answerAt(1, `i${n}`, { number: n + 1, unit: "V" }, { order: n, id: `a${n}` }),
    );
    const plan = compilePlan(checked.plan);
    expect(closeOut(plan, answers.toReversed(), contextOf()).open).toBe(true);
    const broken = answers.map((answer, n) =>
      n === 150 ? { ...answer, value: { number: 1, unit: "V" } } : answer,
    );
    const { blockers } = closeOut(plan, broken, contextOf());
    expect(blockers.map(({ code }) => code)).toEqual([
      "failed",
      ...Array.from({ length: 149 }, () => "out-of-sequence"),
    ]);
  });

  test("with 300 items that all wait for each other is refused", () => {
    const items = measures(300, (n) => ({ min: { cel: `answers.i${(n + 1) % 300}` } }));
    expect(faultsOf(draftPlan([...items.slice(0, 299), { ...items[299] }]))[0]).toContain(
      " circle",
    );
  });
});

describe("names that JavaScript has a meaning for", () => {
  const NAMES = ["constructor", "prototype", "tostring", "valueof", "hasownproperty", "length"];
  const items: Draft[] = [
    ...NAMES.map((id) => draftItem({ id, kind: "count", limit: { count: 1 } })),
    ...NAMES.map((id) =>
      draftItem({
        id: `after_${id}`,
        kind: "count",
        limit: { min: { cel: `answers.${id}` } },
        repeat: { per: "unit" },
      }),
    ),
    draftItem({
      id: "model",
      kind: "count",
      limit: { min: { cel: "model.constructor + model.toString + model.hasOwnProperty" } },
      repeat: { per: "unit" },
    }),
  ];
  const attributes = { constructor: "number", toString: "number", hasOwnProperty: "number" };

  test("are plain names as items and attributes", () => {
    const checked = checkPlan(draftPlan(items, { attributes }));
    if (!checked.ok) throw new Error(JSON.stringify(checked.problems));
    const plan = compilePlan(checked.plan);
    const units = [
      pack(1, { attributes: { constructor: 1, toString: 2, hasOwnProperty: 3 } as never }),
    ];
    const answers = items.map(({ id, repeat }, n) =>
      answerAt(
        n,
        String(id),
        { count: id === "model" ? 6 : 1 },
        repeat ? { subject: "pack-1" } : {},
      ),
    );
    expect(closeOut(plan, answers, contextOf({ units })).blockers).toEqual([]);
  });

  test("are missing where the unit's model lacks them, and not inherited", () => {
    const checked = checkPlan(draftPlan(items.slice(-1), { attributes }));
    if (!checked.ok) throw new Error(JSON.stringify(checked.problems));
    const answers = [answerAt(1, "model", { count: 6 }, { subject: "pack-1" })];
    const context = contextOf({ units: [pack(1, { attributes: {} })] });
    const { facts } = closeOut(compilePlan(checked.plan), answers, context);
    expect(facts[0]?.sentence).toContain("model.constructor is not known here");
  });

  test("__proto__ is refused as an attribute, and changes nothing", () => {
    const attributes = JSON.parse('{"__proto__": "number"}');
    expect(faultsOf(draftPlan([CONFIRM], { attributes }))).toEqual([" shape"]);
    expect(({} as Record<string, unknown>).number).toBeUndefined();
  });

  test("answers to items of such names are not found by accident", () => {
    const checked = checkPlan(draftPlan([CONFIRM]));
    if (!checked.ok) throw new Error("faulty");
    const answers = ["__proto__", "constructor", "toString"].map((itemId, n) =>
      answerAt(n, itemId, { done: true }, { subject: "__proto__" }),
    );
    expect(closeOut(compilePlan(checked.plan), answers, contextOf()).open).toBe(false);
  });
});
