// Whether an item was asked when another was done, among all answers of a job: what is answered
// later changes neither. Common practice, no source.
import { describe, expect, test } from "vitest";
import type { Answer } from "../../../src/domain/acceptance/answer.ts";
import { closeOut } from "../../../src/domain/closeout/gate.ts";
import { type Draft, planOf } from "../plan/small-plan.ts";
import { answerAt, contextOf, verdictIn } from "./judged.ts";

const done = { done: true };
const not = { done: false };
const item = (id: string, more: Draft = {}): Draft => ({ id, kind: "confirm", ...more });
const codes = (items: Draft[], answers: Answer[], context = contextOf()) =>
  closeOut(planOf(items), answers, context).facts.map(
    ({ itemId, subject, code }) => `${itemId}${subject && ` ${subject}`} ${code}`,
  );

describe("an item that no longer applies", () => {
  const heater = [answerAt(1, "heater", done), answerAt(5, "heater", not)];

  test("was wanting all the same for what was done while it did", () => {
    const items = [
      item("heater"),
      item("wired", { appliesWhen: "answers.heater" }),
      item("closed", { after: ["wired"] }),
    ];
    expect(codes(items, [...heater, answerAt(3, "closed", done)])).toEqual([
      ...["heater failed", "wired not-applicable", "closed out-of-sequence"],
    ]);
    expect(codes(items, [...heater, answerAt(7, "closed", done)])).toEqual([
      ...["heater failed", "wired not-applicable", "closed passed"],
    ]);
  });

  test("and a dead one for the live one that was done before", () => {
    const items = [
      item("heater"),
      item("wired", { supply: "dead", appliesWhen: "answers.heater" }),
      item("live", { supply: "live" }),
    ];
    const code = (minute: number) =>
      verdictIn(planOf(items), "live", [...heater, answerAt(minute, "live", done)]).code;
    expect(code(3)).toBe("out-of-sequence");
    expect(code(7)).toBe("passed");
  });
});

describe("a condition that reads no answer", () => {
  test("holds for each item by itself", () => {
    const items = [
      item("in_it", { appliesWhen: 'site.supply == "IT"' }),
      item("in_tt", { appliesWhen: 'site.supply == "TT"' }),
      item("always"),
    ];
    expect(codes(items, [])).toEqual(["in_it not-applicable", "in_tt missing", "always missing"]);
  });

  test("and for each unit by itself", () => {
    const perUnit = { repeat: { per: "unit" }, appliesWhen: "unit.position == 2" };
    expect(codes([item("second", perUnit), item("always")], [])).toEqual([
      ...["second pack-1 not-applicable", "second pack-2 missing", "always missing"],
    ]);
  });

  test("keeps a live item waiting for a dead one that is asked, and for none that is not", () => {
    const items = (supply: string) => [
      item("dead", { supply: "dead", appliesWhen: `site.supply == "${supply}"` }),
      item("live", { supply: "live" }),
    ];
    const answers = [answerAt(1, "live", done)];
    expect(verdictIn(planOf(items("TT")), "live", answers).code).toBe("out-of-sequence");
    expect(verdictIn(planOf(items("IT")), "live", answers).code).toBe("passed");
  });
});
