// Expected order and conditions: ISO 9001:2015 10.2.1 a) to d), from memory.
import { describe, expect, test } from "vitest";
import {
  afterEffectCheck,
  isOverdue,
  missingToClose,
  missingToJudge,
  nextStep,
  stepStates,
} from "../../../src/domain/corrective/follow-up.ts";

const whole = {
  ...{ containment: "set apart", cause: "worn bit", correction: "bits are changed monthly" },
  effectCheck: "twenty torque checks since within limits",
};

describe("the follow-up of a nonconformance", () => {
  test("contains it, finds its cause, corrects it, checks the effect, in that order", () => {
    expect(nextStep({})).toBe("containment");
    expect(nextStep({ containment: "set apart", correction: "new bits" })).toBe("cause");
    expect(nextStep({ ...whole, correction: "" })).toBe("correction");
    expect(nextStep({ ...whole, effectCheck: null })).toBe("effectCheck");
    expect(nextStep(whole)).toBeUndefined();
  });

  test("ends only with a cause and an effect check", () => {
    expect(missingToClose({ containment: "set apart" })).toEqual(["cause", "effectCheck"]);
    expect(missingToClose({ ...whole, effectCheck: "" })).toEqual(["effectCheck"]);
    expect(missingToClose(whole)).toEqual([]);
  });

  test("is overdue from the day after its day on, unless it is closed or has none", () => {
    const due = { state: "contained", dueOn: "2026-02-28" };
    expect(isOverdue(due, "2026-02-28")).toBe(false);
    expect(isOverdue(due, "2026-03-01")).toBe(true);
    expect(isOverdue({ ...due, state: "closed" }, "2026-03-01")).toBe(false);
    expect(isOverdue({ ...due, dueOn: null }, "2026-03-01")).toBe(false);
  });

  test("is judged by its effect once cause and correction are written", () => {
    expect(missingToJudge({})).toEqual(["cause", "correction"]);
    expect(missingToJudge({ ...whole, correction: null })).toEqual(["correction"]);
    expect(missingToJudge({ cause: "worn bit", correction: "new bits" })).toEqual([]);
  });

  test("closes on an effect that is seen, and else asks for another correction", () => {
    const checked = (verdict: "effective" | "not-effective") => ({
      ...whole,
      ...afterEffectCheck(verdict, "twenty checks"),
    });
    expect(missingToClose(checked("effective"))).toEqual([]);
    expect(checked("effective").state).toBe("closed");
    expect(checked("not-effective").state).toBe("open");
    expect(nextStep(checked("not-effective"))).toBe("correction");
    expect(missingToClose(checked("not-effective"))).toEqual(["effectCheck"]);
  });

  test("tells of each step whether it is done, next or later", () => {
    expect(stepStates({ containment: "set apart", correction: "new bits" })).toEqual([
      { step: "containment", standing: "done" },
      { step: "cause", standing: "next" },
      { step: "correction", standing: "done" },
      { step: "effectCheck", standing: "later" },
    ]);
  });
});
