// What deserves a look about the sequence of tests. Dead tests before live ones: IEC 60364-6
// 6.4.3.1, from memory; breakers and waiting times: common practice, no source.
import { describe, expect, test } from "vitest";
import { checkPlan } from "../../../src/domain/plan/check.ts";
import { CONFIRM, type Draft, draftItem, draftPlan } from "./small-plan.ts";

const item = (id: string, more: Draft = {}): Draft => draftItem({ id, kind: "confirm", ...more });
const breakers = (stand: Draft | undefined, leaves: Draft | undefined): Draft => ({
  breakers: { ...(stand ? { with: stand } : {}), ...(leaves ? { leaves } : {}) },
});
const OPEN = { main: "open" };
const CLOSED = { main: "closed" };

const warnings = (...items: Draft[]): string[] => {
  const checked = checkPlan(draftPlan([CONFIRM, ...items]));
  if (!checked.ok) throw new Error(JSON.stringify(checked.problems));
  return checked.warnings.map(
    ({ pointer, code }) => `${pointer.replace("/stages/0/items/", "")} ${code}`,
  );
};

describe("what deserves a look is a warning", () => {
  const dead = item("d", { supply: "dead" });
  const live = item("l", { supply: "live" });

  test.each<[string, Draft[], string[]]>([
    ["dead, then live", [dead, live], []],
    ["live, then dead", [live, dead], ["2/supply dead-after-live"]],
    ["with others between", [live, item("x"), dead], ["3/supply dead-after-live"]],
    ["with a breaker moved between", [live, item("x", breakers(undefined, OPEN)), dead], []],
    ["with a breaker moved by the live one", [{ ...live, ...breakers(undefined, OPEN) }, dead], []],
    [
      "with one moved by the dead one only",
      [live, { ...dead, ...breakers(undefined, OPEN) }],
      ["2/supply dead-after-live"],
    ],
    [
      "a breaker as the plan's order leaves it",
      [item("a", breakers(undefined, OPEN)), item("b", breakers(OPEN, undefined))],
      [],
    ],
    [
      "a breaker left otherwise last",
      [
        item("a", breakers(undefined, OPEN)),
        item("b", breakers(undefined, CLOSED)),
        item("c", breakers(OPEN, undefined)),
      ],
      ["3/breakers/with/main breaker-order"],
    ],
    [
      "a breaker left otherwise by what may not apply",
      [
        item("a", breakers(undefined, OPEN)),
        item("b", { ...breakers(undefined, CLOSED), appliesWhen: 'site.supply == "TT"' }),
        item("c", breakers(OPEN, undefined)),
      ],
      [],
    ],
    [
      "a breaker that only what may not apply moves",
      [
        item("a", { ...breakers(undefined, OPEN), appliesWhen: 'site.supply == "TT"' }),
        item("b", breakers(OPEN, undefined)),
      ],
      ["2/breakers/with/main breaker-condition"],
    ],
    [
      "a breaker that only what applies along with it moves",
      [
        item("a", { ...breakers(undefined, OPEN), appliesWhen: 'site.supply == "TT"' }),
        item("b", { ...breakers(OPEN, undefined), appliesWhen: 'site.supply == "TT"' }),
      ],
      [],
    ],
    [
      "a breaker moved only later",
      [item("a", breakers(OPEN, undefined)), item("b", breakers(undefined, OPEN))],
      ["1/breakers/with/main breaker-order"],
    ],
    [
      "a failure that repeats what stands later",
      [item("a", { onFailRepeat: ["b"] }), item("b")],
      ["1/onFailRepeat/0 needs-later-item"],
    ],
    [
      "a wait for what stands later",
      [item("a", { dwell: { after: "b", atLeastS: 1 } }), item("b")],
      ["1 needs-later-item"],
    ],
  ])("%s", (_what, items, expected) => {
    expect(warnings(...items)).toEqual(expected);
  });

  test("live and dead in different stages are not compared", () => {
    const stages = [
      { id: "one", title: "One", items: [live] },
      { id: "two", title: "Two", items: [dead] },
    ];
    expect(checkPlan(draftPlan([], { stages }))).toMatchObject({ ok: true, warnings: [] });
  });
});
