import { describe, expect, test } from "vitest";
import { AU_NZ_RULE_PACK as rules } from "../../../src/domain/siting/rule-packs/au-nz.ts";
import type { SurveyInput } from "../../../src/domain/siting/survey.ts";
import { findingOf, findingsOf, judge, pack, place, windowAt } from "./sample-survey.ts";

const openings = (feature: ReturnType<typeof windowAt>) =>
  findingOf(judge(rules, { features: [feature] }), "au-nz-openings");

describe("AS/NZS 5139:2019 4.2.2.2: 600 mm beside (memory), 900 mm above (secondary page)", () => {
  test.each([
    ["right of the unit at 599 mm", 6199, 200, "breaks", 599, 600],
    ["right of the unit at 599.9 mm", 6199.9, 200, "breaks", 599.9, 600],
    ["right of the unit at exactly 600 mm", 6200, 200, "meets", 600, 600],
    ["left of the unit at 599 mm", 3601, 200, "breaks", 599, 600],
    ["left of the unit at exactly 600 mm", 3600, 200, "meets", 600, 600],
    ["straight above at 899 mm", 5000, 2099, "breaks", 899, 900],
    ["straight above at exactly 900 mm", 5000, 2100, "meets", 900, 900],
    ["straight above at 100 mm", 5000, 1300, "breaks", 100, 900],
    ["resting on the unit's top", 5000, 1200, "breaks", 0, 900],
    ["over the unit itself", 5000, 600, "breaks", 0, 600],
  ] as const)("a habitable room's window %s", (_where, xMm, yMm, verdict, measured, required) => {
    const finding = openings(windowAt(xMm, yMm));
    expect(finding).toMatchObject({ verdict, measured, required, unit: "mm" });
    expect(finding.margin).toBeCloseTo(measured - required, 6);
    expect(finding.between).toEqual(["pack", "window"]);
  });

  test("a window up and to the side breaks only while it is inside the zone both ways", () => {
    expect(openings(windowAt(6199, 2099))).toMatchObject({ verdict: "breaks" });
    expect(openings(windowAt(6200, 1300))).toMatchObject({ verdict: "meets", direction: "beside" });
    expect(openings(windowAt(5700, 2100))).toMatchObject({ verdict: "meets", direction: "above" });
  });

  test("the sentence says what was measured, what is needed and how much is short", () => {
    expect(openings(windowAt(6199, 200)).sentence).toBe(
      "window is 599 mm beside pack; 600 mm is needed: 1 mm short.",
    );
  });

  test("a window of a non-habitable room is no concern of the rule", () => {
    const laundry = { ...windowAt(6199, 200), opensTo: "other-dwelling-room" } as const;
    expect(openings(laundry).verdict).toBe("not-applicable");
  });

  test("a near window of unknown room asks for more survey, a far one is met", () => {
    const unknown = (xMm: number) => ({ ...windowAt(xMm, 200), opensTo: "unknown" }) as const;
    expect(openings(unknown(6199)).verdict).toBe("needs-survey");
    expect(openings(unknown(6200)).verdict).toBe("meets");
  });

  test.each([
    ["599 mm", 6199, "breaks"],
    ["600 mm", 6200, "meets"],
  ] as const)("an unrelated appliance beside the unit at %s", (_gap, xMm, verdict) => {
    const features: SurveyInput["features"] = [
      { kind: "unrelated-appliance", ...place("heater", xMm, 0, 500, 1500) },
    ];
    expect(findingOf(judge(rules, { features }), "au-nz-appliances").verdict).toBe(verdict);
  });
});

describe("exits (AS/NZS 5139:2019 4.2.2.2; exception (b) of the amendment, secondary page)", () => {
  const exit = (clearWidthMm?: number): NonNullable<SurveyInput["features"]> => [
    {
      kind: "exit",
      ...place("exit", 6100, 0, 2400, 2100),
      opensTo: "elsewhere",
      ...(clearWidthMm === undefined ? {} : { clearWidthMm }),
    },
  ];
  const amended = { "as-nzs-5139": "as-nzs-5139-2019-amended" };

  test("as published, a wide garage opening at 500 mm breaks", () => {
    const judgement = judge(rules, { features: exit(2400) });
    expect(findingOf(judgement, "au-nz-exit").verdict).toBe("breaks");
    expect(findingsOf(judgement, "au-nz-exit-amended")).toEqual([]);
  });

  test.each([
    ["900 mm wide is held to the distance", 900, "breaks"],
    ["901 mm wide is exempt", 901, "not-applicable"],
    ["of unknown width has to be measured", undefined, "needs-survey"],
  ] as const)("as amended, an exit %s", (_case, widthMm, verdict) => {
    const judgement = judge(rules, { features: exit(widthMm), editions: amended });
    expect(findingOf(judgement, "au-nz-exit-amended").verdict).toBe(verdict);
    expect(findingsOf(judgement, "au-nz-exit")).toEqual([]);
  });
});

describe("forbidden places (AS/NZS 5139:2019 4.2.2)", () => {
  test.each([
    ["habitable-room", "au-nz-rooms", "breaks"],
    ["bedroom", "au-nz-rooms", "breaks"],
    ["ceiling-void", "au-nz-rooms", "breaks"],
    ["wall-cavity", "au-nz-rooms", "breaks"],
    ["under-stairs", "au-nz-stairs-and-escape", "breaks"],
    ["escape-route", "au-nz-stairs-and-escape", "breaks"],
    ["attached-garage", "au-nz-rooms", "meets"],
    ["outside-wall", "au-nz-stairs-and-escape", "meets"],
    ["unknown", "au-nz-rooms", "needs-survey"],
  ] as const)("a battery in a place of the kind %s: %s %s", (kind, ruleId, verdict) => {
    const rooms = [{ id: "place", name: "place", kinds: [kind] }];
    expect(findingOf(judge(rules, { rooms }), ruleId).verdict).toBe(verdict);
  });

  test("a garage space that lies under the stairs is under the stairs", () => {
    const rooms: SurveyInput["rooms"] = [
      { id: "place", name: "place", kinds: ["attached-garage", "under-stairs"] },
    ];
    const finding = findingOf(judge(rules, { rooms }), "au-nz-stairs-and-escape");
    expect(finding).toMatchObject({ verdict: "breaks", certainty: "memory" });
  });
});

describe("barrier on a wall of a habitable room (AS/NZS 5139:2019 4.2.4, memory, unsure)", () => {
  type Wall = NonNullable<SurveyInput["planes"][number]["wall"]>;
  const judged = (wall: Wall | undefined, features: SurveyInput["features"] = []) => {
    const plane = { id: "wall", name: "wall", roomId: "place", widthMm: 12_000, heightMm: 6000 };
    const planes = [{ ...plane, view: "elevation" as const, ...(wall ? { wall } : {}) }];
    return findingOf(judge(rules, { planes, features }), "au-nz-barrier");
  };
  const combustible: Wall = { backsOnto: "bedroom", combustible: true };
  // The pack spans 5000 to 5600 and tops at 1200: needed is 4400 to 6200, 200 to 2100.
  const sheet = (id: string, xMm: number, widthMm: number, topMm = 2100, nonCombustible = true) =>
    ({ kind: "barrier", ...place(id, xMm, 200, widthMm, topMm - 200), nonCombustible }) as const;

  test("without one, it breaks, and the needed rectangle is given for the drawing", () => {
    expect(judged(combustible)).toMatchObject({
      verdict: "breaks",
      measured: 0,
      unit: "%",
      certainty: "unsure",
      zone: { planeId: "wall", xMm: 4400, yMm: 200, widthMm: 1800, heightMm: 1900 },
    });
  });

  test.each([
    ["600 mm to each side and 900 mm above", sheet("s", 4400, 1800), "meets"],
    ["599 mm to one side", sheet("s", 4401, 1799), "breaks"],
    ["899 mm above", sheet("s", 4400, 1800, 2099), "breaks"],
    ["all of it, but combustible", sheet("s", 4400, 1800, 2100, false), "breaks"],
  ] as const)("a sheet reaching %s", (_reach, barrier, verdict) => {
    expect(judged(combustible, [barrier]).verdict).toBe(verdict);
  });

  test("two sheets that meet edge to edge cover, two with a gap of 1 mm do not", () => {
    expect(judged(combustible, [sheet("a", 4400, 900), sheet("b", 5300, 900)]).verdict).toBe(
      "meets",
    );
    expect(judged(combustible, [sheet("a", 4400, 900), sheet("b", 5301, 900)]).verdict).toBe(
      "breaks",
    );
  });

  test("the wall decides whether it applies, and an unknown wall asks for more survey", () => {
    expect(judged({ backsOnto: "bedroom", combustible: false }).verdict).toBe("meets");
    expect(judged({ backsOnto: "bedroom" }).verdict).toBe("needs-survey");
    expect(judged({ backsOnto: "unknown" }).verdict).toBe("needs-survey");
    expect(judged(undefined).verdict).toBe("needs-survey");
    expect(judged({ backsOnto: "attached-garage" }).verdict).toBe("not-applicable");
  });

  test("at the end of a wall the barrier need not reach past the wall", () => {
    const plane = { id: "wall", name: "wall", roomId: "place", widthMm: 12_000, heightMm: 6000 };
    const planes = [{ ...plane, view: "elevation" as const, wall: combustible }];
    const units = [pack({ xMm: 100 })];
    const features = [sheet("s", 0, 1300)];
    const judgement = judge(rules, { planes, units, features });
    expect(findingOf(judgement, "au-nz-barrier").verdict).toBe("meets");
  });
});
