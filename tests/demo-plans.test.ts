import { describe, expect, test } from "vitest";
import { checkPlan } from "../src/domain/plan/check.ts";
import { STARTER_PLANS } from "../src/features/plans/starter-plans.ts";

describe("the starter plans", () => {
  test.each(STARTER_PLANS.map((plan) => [plan.code, plan] as const))(
    "%s passes its check",
    (_code, plan) => {
      const checked = checkPlan(plan.document);
      expect(checked.ok ? [] : checked.problems).toEqual([]);
      expect(plan.description.length).toBeGreaterThan(40);
    },
  );

  test("cover the trade's jobs with hold points, cautions, reasons and derived limits", () => {
    const codes = STARTER_PLANS.map(({ code }) => code);
    for (const code of [
      "GOODS-IN",
      "WALL-PACK",
      "STACK-BANK",
      "HYBRID-INVERTER",
      "FIRMWARE-VISIT",
      "PERIODIC-INSPECTION",
    ]) {
      expect(codes).toContain(code);
    }
    const items = STARTER_PLANS.flatMap(({ document }) => {
      const checked = checkPlan(document);
      return checked.ok ? checked.plan.stages.flatMap((stage) => stage.items) : [];
    });
    expect(items.filter(({ safetyCritical }) => safetyCritical).length).toBeGreaterThan(30);
    expect(items.filter(({ cautions }) => cautions).length).toBeGreaterThan(50);
    expect(items.filter(({ why }) => why).length).toBeGreaterThan(60);
    const text = JSON.stringify(items);
    for (const derived of [
      "max_zs_for(",
      "ra_max_ohm(",
      "voc_expected_v(",
      "model.ocvMinV",
      "unit.position *",
    ]) {
      expect(text).toContain(derived);
    }
  });

  test("put a caution on every item that touches live work, lifting or isolation", () => {
    const risky = /isolat|live|lift|energis|proved dead|open-circuit voltage|terminals/i;
    const items = STARTER_PLANS.flatMap(({ document }) => {
      const checked = checkPlan(document);
      return checked.ok ? checked.plan.stages.flatMap((stage) => stage.items) : [];
    });
    const bare = items.filter(
      ({ title, safetyCritical, cautions, kind }) =>
        safetyCritical && risky.test(title) && kind !== "choose" && !cautions,
    );
    expect(bare.map(({ id }) => id)).toEqual([]);
  });
});
