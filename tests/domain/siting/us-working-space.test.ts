import { describe, expect, test } from "vitest";
import { US_RULE_PACK as rules } from "../../../src/domain/siting/rule-packs/us.ts";
import type { SurveyInput } from "../../../src/domain/siting/survey.ts";
import { findingsOf, judge, pack } from "./sample-survey.ts";

type UnitInput = SurveyInput["units"][number];

describe("working space (NEC 110.26(A), T110.26(A)(1); secondary page)", () => {
  type Space = NonNullable<UnitInput["workingSpace"]>;
  const judged = (space: Space, more: Partial<UnitInput> = {}) =>
    findingsOf(
      judge(rules, { units: [pack({ workingSpace: space, ...more })] }),
      "us-working-space",
    );
  const roomy = { widthMm: 800, heightMm: 2100 };

  // Depths printed in feet: 3/3/3 up to 150 V to ground, 3/3.5/4 from 151 to 600 V.
  test.each([
    [120, 1, 914.4],
    [150, 3, 914.4],
    [151, 1, 914.4],
    [151, 2, 1066.8],
    [600, 3, 1219.2],
  ] as const)("%s V to ground, condition %s needs %s mm of depth", (volts, condition, neededMm) => {
    const depth = (depthMm: number) =>
      judged({ ...roomy, depthMm, condition }, { voltageToGroundV: volts }).find(
        (finding) => finding.required === neededMm,
      )?.verdict;
    expect(depth(neededMm)).toBe("meets");
    expect(depth(neededMm - 1)).toBe("breaks");
  });

  test.each([
    ["width, 30 in", { widthMm: 762, heightMm: 2100 }, { widthMm: 761, heightMm: 2100 }, 762],
    [
      "height, 6.5 ft",
      { widthMm: 800, heightMm: 1981.2 },
      { widthMm: 800, heightMm: 1981 },
      1981.2,
    ],
  ] as const)("%s: both sides of the limit", (_what, good, bad, requiredMm) => {
    const verdict = (space: Space) =>
      judged(space).find((finding) => finding.required === requiredMm)?.verdict;
    expect(verdict(good)).toBe("meets");
    expect(verdict(bad)).toBe("breaks");
  });

  test("a unit wider than 30 in needs a space as wide as itself", () => {
    const findings = judged({ widthMm: 899, heightMm: 2100 }, { widthMm: 900 });
    expect(findings).toContainEqual(
      expect.objectContaining({ verdict: "breaks", measured: 899, required: 900 }),
    );
  });

  test("seen from above, the unit's drawn depth is not taken for its height", () => {
    const heightOf = (view: "plan" | "elevation") => {
      const plane = { id: "wall", name: "wall", roomId: "place", widthMm: 12_000, heightMm: 6000 };
      const units = [pack({ heightMm: 2500, workingSpace: { widthMm: 800, heightMm: 2100 } })];
      const findings = judge(rules, { units, planes: [{ ...plane, view }] });
      return findingsOf(findings, "us-working-space").find(({ measured }) => measured === 2100);
    };
    expect(heightOf("plan")).toMatchObject({ verdict: "meets", required: 1981.2 });
    expect(heightOf("elevation")).toMatchObject({ verdict: "breaks", required: 2500 });
  });

  test("without voltage or condition, or beyond the table, the depth stays open", () => {
    const open = (space: Space, more: Partial<UnitInput>) =>
      judged(space, more).filter((finding) => finding.verdict === "needs-survey").length;
    expect(open({ ...roomy, depthMm: 2000 }, { voltageToGroundV: 120 })).toBe(1);
    expect(open({ ...roomy, depthMm: 2000, condition: 1 }, { voltageToGroundV: 601 })).toBe(1);
    expect(open({}, {})).toBe(3);
  });
});
