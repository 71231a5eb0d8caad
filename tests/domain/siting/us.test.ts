import { describe, expect, test } from "vitest";
import { US_RULE_PACK as rules } from "../../../src/domain/siting/rule-packs/us.ts";
import type { SurveyInput } from "../../../src/domain/siting/survey.ts";
import type { RoomKind } from "../../../src/domain/siting/vocabulary.ts";
import { findingOf, judge, pack, place, windowAt } from "./sample-survey.ts";

type UnitInput = SurveyInput["units"][number];

const inRoom = (kind: RoomKind): SurveyInput["rooms"] => [
  { id: "place", name: "place", kinds: [kind] },
];
const second = (gapMm: number, more: Partial<UnitInput> = {}): UnitInput =>
  pack({ ...place("second", 5600 + gapMm, 200, 600, 1000), ...more });

describe("3 ft is 914.4 mm, printed as 914 (NIST SP 811; IRC R328.3.1, NFPA 855 15.5)", () => {
  test.each([
    [913, "breaks"],
    [914, "breaks"],
    [914.4, "meets"],
    [36 * 25.4, "meets"],
  ] as const)("two units %s mm apart", (gapMm, verdict) => {
    const judgement = judge(rules, { units: [pack(), second(gapMm)] });
    const finding = findingOf(judgement, "us-unit-separation");
    expect(finding).toMatchObject({ verdict, required: 914.4, between: ["pack", "second"] });
    expect(finding.caution).toContain("the codes print 914 mm");
  });

  test("a corner-to-corner gap is the straight line: 600 and 800 make 1000", () => {
    const units = [pack(), pack(place("second", 6200, 2000, 600, 1000))];
    const finding = findingOf(judge(rules, { units }), "us-unit-separation");
    expect(finding).toMatchObject({ verdict: "meets", measured: 1000, direction: "straight-line" });
  });

  test("less is allowed where both units have a fire test, and then the greater of the two", () => {
    const tested = (minimumMm: number) => ({ testedSeparation: { minimumMm, evidence: "report" } });
    const units = (gapMm: number) => [pack(tested(100)), second(gapMm, tested(300))];
    const verdict = (list: UnitInput[]) =>
      findingOf(judge(rules, { units: list }), "us-unit-separation").verdict;
    expect(verdict(units(300))).toBe("meets");
    expect(verdict(units(299))).toBe("breaks");
    expect(verdict([pack(tested(100)), second(300)])).toBe("breaks");
  });

  test.each([
    [913, "breaks"],
    [914.4, "meets"],
  ] as const)("outside, a window into the dwelling at %s mm", (gapMm, verdict) => {
    const features = [windowAt(5600 + gapMm, 200)];
    const judgement = judge(rules, { features, rooms: inRoom("outside-wall") });
    expect(findingOf(judgement, "us-openings").verdict).toBe(verdict);
  });

  test("in a garage the distance to windows is not asked for", () => {
    const judgement = judge(rules, { features: [windowAt(5700, 200)] });
    expect(findingOf(judgement, "us-openings").verdict).toBe("not-applicable");
  });
});

describe("stored energy (NFPA 855 ch. 15 and 15.7; secondary pages)", () => {
  test.each([
    [1, "not-applicable"],
    [1.1, "meets"],
    [20, "meets"],
    [20.1, "breaks"],
    [20.0004, "breaks"],
  ] as const)("one unit of %s kWh", (energyKWh, verdict) => {
    const judgement = judge(rules, { units: [pack({ energyKWh })] });
    expect(findingOf(judgement, "us-unit-energy").verdict).toBe(verdict);
  });

  const row = (energies: readonly (number | undefined)[]): UnitInput[] =>
    energies.map((energyKWh, at) =>
      pack({ ...place(`unit-${at}`, at * 1600, 200, 600, 1000), energyKWh }),
    );

  test.each([
    ["utility-closet", "us-aggregate-inside", [20, 20], "meets", 40],
    ["utility-closet", "us-aggregate-inside", [20, 20, 20], "breaks", 60],
    ["basement", "us-aggregate-inside", [20.1, 19.9], "meets", 40],
    ["basement", "us-aggregate-inside", [20.1, 20], "breaks", 40.1],
    ["attached-garage", "us-aggregate-garage", [20, 20, 20, 20], "meets", 80],
    ["attached-garage", "us-aggregate-garage", [20, 20, 20, 20, 0.1], "breaks", 80.1],
    ["outside-wall", "us-aggregate-outside-wall", [20, 20, 20, 20], "meets", 80],
    ["ground-mounted", "us-aggregate-ground", [20, 20, 20, 20.1], "breaks", 80.1],
  ] as const)("in %s (%s) %j kWh: %s", (kind, ruleId, energies, verdict, measured) => {
    const judgement = judge(rules, { units: row(energies), rooms: inRoom(kind) });
    expect(findingOf(judgement, ruleId)).toMatchObject({ verdict, measured, unit: "kWh" });
  });

  test("51.2 V × 100 Ah packs of 5.12 kWh: seven fit a closet, eight do not", () => {
    const judged = (count: number) =>
      findingOf(
        judge(rules, {
          units: row(Array.from({ length: count }, () => (51.2 * 100) / 1000)).map((unit, at) => ({
            ...unit,
            xMm: at * 700,
          })),
          rooms: inRoom("utility-closet"),
        }),
        "us-aggregate-inside",
      );
    expect(judged(7)).toMatchObject({ verdict: "meets", measured: 35.84 });
    expect(judged(8)).toMatchObject({ verdict: "breaks", measured: 40.96 });
  });

  test("a unit without a rating leaves the sum open, unless the others exceed the limit", () => {
    const judged = (energies: (number | undefined)[]) =>
      findingOf(
        judge(rules, { units: row(energies), rooms: inRoom("utility-closet") }),
        "us-aggregate-inside",
      ).verdict;
    expect(judged([20, undefined])).toBe("needs-survey");
    expect(judged([20, 20.1, undefined])).toBe("breaks");
  });
});

describe("places (IRC R328.4; secondary page)", () => {
  test.each([
    ["bedroom", "breaks"],
    ["habitable-room", "breaks"],
    ["bedroom-closet", "breaks"],
    ["loft", "breaks"],
    ["attached-garage", "meets"],
    ["utility-closet", "meets"],
    ["outside-wall", "meets"],
    ["unknown", "needs-survey"],
  ] as const)("a battery in %s: %s", (kind, verdict) => {
    const judgement = judge(rules, { rooms: inRoom(kind) });
    expect(findingOf(judgement, "us-rooms").verdict).toBe(verdict);
  });

  test("R328 of the 2021 edition is named R330 under the 2024 edition", () => {
    expect(findingOf(judge(rules), "us-rooms")).toMatchObject({
      source: "IRC R328.4",
      edition: "2021",
    });
    const newer = judge(rules, { editions: { irc: "irc-2024" } });
    expect(findingOf(newer, "us-rooms")).toMatchObject({ source: "IRC R330.4", edition: "2024" });
  });
});
