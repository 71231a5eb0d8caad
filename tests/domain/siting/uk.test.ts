import { describe, expect, test } from "vitest";
import { UK_RULE_PACK as rules } from "../../../src/domain/siting/rule-packs/uk.ts";
import type { SurveyInput } from "../../../src/domain/siting/survey.ts";
import { findingOf, judge, place, windowAt } from "./sample-survey.ts";

const outside: SurveyInput["rooms"] = [{ id: "place", name: "place", kinds: ["outside-wall"] }];

describe("PAS 63100:2024 6.5 (secondary page)", () => {
  test.each(["door", "window", "vent", "exit"] as const)(
    "outdoors a %s at 999 mm breaks and at 1000 mm is met, wherever it opens to",
    (kind) => {
      const verdict = (gapMm: number) => {
        const opening = place("opening", 5600 + gapMm, 200, 400, 400);
        const features = [{ kind, ...opening, opensTo: "unknown" as const }];
        const judgement = judge(rules, { rooms: outside, features });
        return findingOf(judgement, "uk-outdoor-openings").verdict;
      };
      expect(verdict(999)).toBe("breaks");
      expect(verdict(1000)).toBe("meets");
    },
  );

  test("the metre is a straight line: 600 across and 800 up is enough, 790 up is not", () => {
    const verdict = (yMm: number) => {
      const judgement = judge(rules, { rooms: outside, features: [windowAt(6200, yMm)] });
      return findingOf(judgement, "uk-outdoor-openings").verdict;
    };
    expect(verdict(2000)).toBe("meets");
    expect(verdict(1990)).toBe("breaks");
  });

  test.each([
    ["bedroom", "breaks"],
    ["bedroom-closet", "breaks"],
    ["escape-route", "breaks"],
    ["loft", "breaks"],
    ["ceiling-void", "breaks"],
    ["attached-garage", "meets"],
    ["outside-wall", "meets"],
  ] as const)("a battery in %s: %s", (kind, verdict) => {
    const rooms: SurveyInput["rooms"] = [{ id: "place", name: "place", kinds: [kind] }];
    expect(findingOf(judge(rules, { rooms }), "uk-rooms").verdict).toBe(verdict);
  });

  test.each([
    [1999, "breaks"],
    [2000, "meets"],
  ] as const)("stored flammables at %s mm (unsure)", (gapMm, verdict) => {
    const features: SurveyInput["features"] = [
      { kind: "stored-flammables", ...place("fuel", 5600 + gapMm, 0, 500, 500) },
    ];
    const finding = findingOf(judge(rules, { features }), "uk-stored-flammables");
    expect(finding).toMatchObject({ verdict, certainty: "unsure" });
  });
});
