import { describe, expect, test } from "vitest";
import { parseRulePack, rulePackSchema } from "../../../src/domain/siting/rule-pack.ts";
import type { SurveyInput } from "../../../src/domain/siting/survey.ts";
import { findingOf, judge, pack, place } from "./sample-survey.ts";

describe("a firm's own rule pack is data validated the same way", () => {
  const own = {
    schema: "siting-rule-pack/1",
    id: "own",
    region: "au-nz",
    title: "Our own rules",
    caution: "Ours, stricter than the code.",
    editions: [],
    rules: [
      {
        kind: "clearance",
        id: "own-boundary",
        title: "1.5 m from the boundary",
        source: { document: "Firm's rules", edition: "2026", clause: "4" },
        certainty: "own rule",
        to: [{ kind: "boundary" }],
        distance: { shape: "straight-line", minimumMm: 1500 },
      },
      {
        kind: "ambient",
        id: "own-ambient",
        title: "Temperatures of the place",
        source: { document: "Firm's rules", edition: "2026", clause: "5" },
        certainty: "own rule",
        minimumC: -10,
        maximumC: 45,
      },
    ],
  };
  const rules = rulePackSchema.parse(own);

  test.each([
    [1499, "breaks"],
    [1500, "meets"],
  ] as const)("its boundary rule judges a boundary at %s mm", (gapMm, verdict) => {
    const features: SurveyInput["features"] = [
      { kind: "boundary", ...place("fence", 5600 + gapMm, 0, 50, 1800) },
    ];
    expect(findingOf(judge(rules, { features }), "own-boundary").verdict).toBe(verdict);
  });

  test.each([
    [299, "breaks"],
    [300, "meets"],
  ] as const)(
    "its zone may ask for less below the unit than beside it: %s mm",
    (gapMm, verdict) => {
      const zone = { shape: "zone", besideMm: 600, aboveMm: 900, belowMm: 300 };
      const rule = { ...own.rules[0], id: "own-vent", to: [{ kind: "vent" }], distance: zone };
      const zoned = rulePackSchema.parse({ ...own, rules: [rule] });
      const features: SurveyInput["features"] = [
        { kind: "vent", ...place("vent", 5000, 0, 300, 100), opensTo: "elsewhere" },
      ];
      const units = [pack({ yMm: 100 + gapMm })];
      const finding = findingOf(judge(zoned, { units, features }), "own-vent");
      expect(finding).toMatchObject({ verdict, direction: "below", required: 300 });
    },
  );

  test.each([
    [{ minimumC: -10, maximumC: 45 }, "meets"],
    [{ minimumC: -10.1, maximumC: 20 }, "breaks"],
    [{ minimumC: 0, maximumC: 45.1 }, "breaks"],
    [undefined, "needs-survey"],
  ] as const)("its ambient rule judges %j: %s", (ambient, verdict) => {
    expect(findingOf(judge(rules, { ambient }), "own-ambient").verdict).toBe(verdict);
  });

  test.each([
    ["a rule twice", { ...own, rules: [own.rules[0], own.rules[0]] }, "used twice"],
    [
      "an unknown edition",
      { ...own, rules: [{ ...own.rules[0], editions: ["nowhere"] }] },
      "which the pack does not hold",
    ],
    [
      "no default edition",
      { ...own, editions: [{ id: "e", family: "f", title: "E", isDefault: false }] },
      "exactly one default",
    ],
    [
      "a negative distance",
      {
        ...own,
        rules: [{ ...own.rules[0], distance: { shape: "straight-line", minimumMm: -1 } }],
      },
      "minimumMm",
    ],
    ["a rule kind of its own", { ...own, rules: [{ ...own.rules[0], kind: "feng-shui" }] }, "kind"],
  ])("a pack with %s is refused with its place", (_case, input, words) => {
    const parsed = parseRulePack(input);
    expect(parsed.ok).toBe(false);
    expect(parsed.ok ? "" : parsed.problem).toContain(words);
  });
});
