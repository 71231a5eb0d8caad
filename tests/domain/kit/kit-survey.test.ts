import { describe, expect, test } from "vitest";
import { kitFor } from "../../../src/domain/kit/kit-for.ts";
import { parseSurvey } from "../../../src/domain/siting/survey.ts";
import { byKey, CONFIRM, model, plan, unit } from "./kit-parts.ts";

describe("what the survey tells", () => {
  const survey = (wall: object | undefined, equipment = true, yMm = 400) => {
    const place = (id: string, role: string, xMm: number, at: number) => ({
      ...{ id, name: id, planeId: "wall", role, xMm, yMm: at, widthMm: 600, heightMm: 700 },
    });
    const parsed = parseSurvey({
      schema: "survey/1",
      title: "Garage",
      region: "uk",
      rooms: [{ id: "garage", name: "Garage", kinds: ["attached-garage"] }],
      planes: [
        {
          ...{ id: "wall", name: "Back wall", roomId: "garage", view: "elevation" },
          ...{ widthMm: 6000, heightMm: 3000, ...(wall ? { wall } : {}) },
        },
      ],
      units: [
        place("pack", "battery", 0, yMm),
        ...(equipment ? [place("inverter", "equipment", 1850, 1500)] : []),
      ],
    });
    if (!parsed.ok) throw new Error(parsed.problem);
    return parsed.survey;
  };
  const stone = { backsOnto: "outside-wall", combustible: false };
  const found = (...how: Parameters<typeof survey>) =>
    kitFor(plan([CONFIRM]), [model({ attributes: { massKg: 20 } })], [unit("1")], survey(...how));

  test("a cable run is at least along and up: 1,250 mm and 400 mm are 1.65 m (by hand)", () => {
    expect(byKey(found(stone), "survey:battery-cable")).toMatchObject({
      amount: 1.65,
      countedIn: "m",
      notes: [{ code: "least-run", from: "pack", to: "inverter" }],
      sources: ["Garage"],
    });
  });

  test("without equipment on the same wall the run is a gap", () => {
    expect(found(stone, false).gaps).toEqual([{ code: "not-on-one-wall", unit: "pack" }]);
  });

  test("a wall whose making nobody noted is a gap; a combustible one asks for a board", () => {
    expect(found(undefined).gaps).toEqual([{ code: "wall-not-surveyed", place: "Back wall" }]);
    const timber = found({ ...stone, combustible: true });
    expect(timber.gaps).toEqual([]);
    expect(byKey(timber, "survey:board")).toMatchObject({ amount: 1 });
  });

  test("equipment over reach brings steps, and says its height", () => {
    const kit = found(stone);
    expect(byKey(kit, "survey:steps")?.notes).toEqual([{ code: "reach", heightMm: 2200 }]);
  });

  test("within reach there are no steps: 1,900 mm is, 1,901 mm is not", () => {
    expect(byKey(found(stone, false, 1200), "survey:steps")).toBeUndefined();
    expect(byKey(found(stone, false, 1201), "survey:steps")).toBeDefined();
  });

  test("no survey is said", () => {
    expect(kitFor(plan([CONFIRM]), [model()], [unit("1")]).gaps[0]).toEqual({ code: "no-survey" });
  });
});
