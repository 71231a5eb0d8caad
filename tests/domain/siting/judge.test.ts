import { describe, expect, test } from "vitest";
import { judgeSiting } from "../../../src/domain/siting/judge.ts";
import { AU_NZ_RULE_PACK } from "../../../src/domain/siting/rule-packs/au-nz.ts";
import { UK_RULE_PACK } from "../../../src/domain/siting/rule-packs/uk.ts";
import { US_RULE_PACK } from "../../../src/domain/siting/rule-packs/us.ts";
import type { SurveyInput } from "../../../src/domain/siting/survey.ts";
import { findingOf, findingsOf, judge, pack, place, survey, windowAt } from "./sample-survey.ts";

const otherWall: SurveyInput["planes"][number] = {
  id: "other-wall",
  name: "other wall",
  roomId: "place",
  view: "elevation",
  widthMm: 3000,
  heightMm: 2400,
};
const bothWalls = [
  ...survey().planes,
  otherWall,
  { ...otherWall, id: "far-wall", roomId: "elsewhere" },
];
const bothRooms: SurveyInput["rooms"] = [
  { id: "place", name: "place", kinds: ["attached-garage"] },
  { id: "elsewhere", name: "elsewhere", kinds: ["other"] },
];
const windowOn = (planeId: string) => ({ ...windowAt(0, 0), planeId });

describe("what was not surveyed is never taken as met", () => {
  test("a kind neither drawn nor looked for asks for more survey", () => {
    const finding = findingOf(
      judge(AU_NZ_RULE_PACK, { lookedFor: ["exit", "window", "unrelated-appliance"] }),
      "au-nz-openings",
    );
    expect(finding.verdict).toBe("needs-survey");
    expect(finding.sentence).toContain("vent");
  });

  test("looked for and not there is not applicable", () => {
    expect(findingOf(judge(AU_NZ_RULE_PACK), "au-nz-openings").verdict).toBe("not-applicable");
  });

  test("a window on another wall of the room needs a tape measure; in another room, none", () => {
    const on = (planeId: string) =>
      findingOf(
        judge(AU_NZ_RULE_PACK, {
          rooms: bothRooms,
          planes: bothWalls,
          features: [windowOn(planeId)],
        }),
        "au-nz-openings",
      ).verdict;
    expect(on("other-wall")).toBe("needs-survey");
    expect(on("far-wall")).toBe("not-applicable");
  });

  test.each([
    ["beside", 599, "breaks"],
    ["beside", 600, "meets"],
    ["above", 899, "breaks"],
    ["above", 900, "meets"],
  ] as const)("a tape measure %s of %s mm decides it", (direction, distanceMm, verdict) => {
    const judgement = judge(AU_NZ_RULE_PACK, {
      rooms: bothRooms,
      planes: bothWalls,
      features: [windowOn("other-wall")],
      tape: [{ fromId: "pack", toId: "window", distanceMm, direction }],
    });
    expect(findingOf(judgement, "au-nz-openings")).toMatchObject({
      verdict,
      measured: distanceMm,
      sentence: expect.stringContaining("by tape"),
    });
  });

  test("a tape measure outranks the drawing", () => {
    const judgement = judge(AU_NZ_RULE_PACK, {
      features: [windowAt(6200, 200)],
      tape: [{ fromId: "pack", toId: "window", distanceMm: 590, direction: "beside" }],
    });
    expect(findingOf(judgement, "au-nz-openings").verdict).toBe("breaks");
  });

  test("each tape measure belongs to its own unit", () => {
    const judgement = judge(AU_NZ_RULE_PACK, {
      units: [pack(), pack({ ...place("second", 5000, 1300, 600, 1000) })],
      features: [windowAt(9000, 200)],
      tape: [
        { fromId: "pack", toId: "window", distanceMm: 700, direction: "beside" },
        { fromId: "second", toId: "window", distanceMm: 500, direction: "beside" },
      ],
    });
    const byUnit = findingsOf(judgement, "au-nz-openings").map((one) => [
      one.between[0],
      one.measured,
    ]);
    expect(Object.fromEntries(byUnit)).toEqual({ pack: 700, second: 500 });
  });

  test("a tape measure between two units counts whichever was named first", () => {
    const units = [pack(), pack(place("second", 5700, 200, 600, 1000))];
    const between = (fromId: string, toId: string) =>
      findingOf(
        judge(US_RULE_PACK, {
          units,
          tape: [{ fromId, toId, distanceMm: 1000, direction: "beside" }],
        }),
        "us-unit-separation",
      );
    expect(between("pack", "second")).toMatchObject({ verdict: "meets", measured: 1000 });
    expect(between("second", "pack")).toMatchObject({ verdict: "meets", measured: 1000 });
  });
});

describe("views and editions", () => {
  test("seen from above nothing is excused for lying higher: the straight line decides", () => {
    const planes = survey().planes.map((plane) => ({ ...plane, view: "plan" as const }));
    const judgement = judge(AU_NZ_RULE_PACK, { planes, features: [windowAt(5000, 2150)] });
    const finding = findingOf(judgement, "au-nz-openings");
    expect(finding).toMatchObject({ measured: 950, required: 600, verdict: "meets" });
    expect(finding.sentence).toContain("seen from above");
  });

  test("another region's pack, and an edition that it does not hold, ask for more survey", () => {
    const judgement = judgeSiting(
      survey({ region: "uk", editions: { "as-nzs-5139": "none-such" } }),
      AU_NZ_RULE_PACK,
    );
    const about = judgement.findings.filter((finding) => finding.ruleId === "rule-pack");
    expect(about.map((finding) => finding.verdict)).toEqual(["needs-survey", "needs-survey"]);
  });

  test("lengths read in inches where the survey asks for them", () => {
    const judgement = judge(AU_NZ_RULE_PACK, {
      displayLength: "in",
      features: [windowAt(5600 + 25.4 * 20, 200)],
    });
    const { sentence } = findingOf(judgement, "au-nz-openings");
    expect(sentence).toContain("20 in beside pack; 23.622 in is needed: 3.622 in short");
  });

  test("equipment without a store is held to working space only", () => {
    const units = [pack({ role: "equipment" })];
    const judgement = judge(US_RULE_PACK, { units });
    const applying = judgement.findings.filter((one) => one.verdict !== "not-applicable");
    expect(new Set(applying.map((one) => one.ruleId))).toEqual(new Set(["us-working-space"]));
  });
});

describe("the judgement as a whole", () => {
  const judgement = judge(AU_NZ_RULE_PACK, { features: [windowAt(6199, 200)] });

  test("findings come worst first and the counts add up", () => {
    expect(judgement.findings[0]?.verdict).toBe("breaks");
    const {
      breaks,
      meets,
      "needs-survey": open,
      "not-applicable": none,
    } = judgement.summary.counts;
    expect(breaks).toBe(1);
    expect(breaks + meets + open + none).toBe(judgement.findings.length);
  });

  test("it is guidance with a caution, and never calls itself a certificate or an approval", () => {
    expect(judgement.caution).toContain("Guidance, not a certificate");
    const words = judgement.findings.map((one) => one.sentence).join(" ");
    expect(words).not.toMatch(/certif|approved|compliant/i);
  });

  test.each([AU_NZ_RULE_PACK, UK_RULE_PACK, US_RULE_PACK])(
    "every finding of pack $id names its source, edition and certainty",
    (rules) => {
      for (const finding of judge(rules, { features: [windowAt(6199, 200)] }).findings) {
        expect(finding.source.length).toBeGreaterThan(0);
        expect(finding.edition.length).toBeGreaterThan(0);
        expect(finding.certainty).toMatch(/seen in a secondary page|memory|unsure/);
      }
    },
  );
});
