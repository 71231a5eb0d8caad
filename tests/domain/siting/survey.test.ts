import { describe, expect, test } from "vitest";
import { parseSurvey } from "../../../src/domain/siting/survey.ts";
import { pack, place, surveyInput, windowAt } from "./sample-survey.ts";

const problemOf = (input: unknown): string => {
  const parsed = parseSurvey(input);
  return parsed.ok ? "" : parsed.problem;
};
const manyUnits = (count: number) =>
  Array.from({ length: count }, (_, at) => pack(place(`unit-${at}`, at * 10, 0, 5, 5)));
const manyWindows = (count: number) =>
  Array.from({ length: count }, (_, at) => ({ ...windowAt(0, 0), id: `window-${at}` }));

describe("survey/1", () => {
  test("a sound survey is read, with its defaults filled in", () => {
    const parsed = parseSurvey({ ...surveyInput(), lookedFor: undefined });
    expect(parsed).toMatchObject({ ok: true, survey: { displayLength: "mm", lookedFor: [] } });
  });

  test("lists are bounded: 40 units and 100 features are read, one more is refused", () => {
    expect(problemOf(surveyInput({ units: manyUnits(40) }))).toBe("");
    expect(problemOf(surveyInput({ units: manyUnits(41) }))).toContain("units");
    expect(problemOf(surveyInput({ features: manyWindows(100) }))).toBe("");
    expect(problemOf(surveyInput({ features: manyWindows(101) }))).toContain("features");
  });

  test.each([
    ["another version", { ...surveyInput(), schema: "survey/2" }, "schema"],
    ["a field that nobody knows", { ...surveyInput(), colour: "blue" }, "colour"],
    ["two things of one id", surveyInput({ units: [pack(), pack()] }), "used twice"],
    [
      "a unit on no plane",
      surveyInput({ units: [pack({ planeId: "sky" })] }),
      "no plane is called",
    ],
    [
      "a plane in no room",
      surveyInput({ planes: surveyInput().planes.map((one) => ({ ...one, roomId: "void" })) }),
      "no room is called",
    ],
    ["a unit that sticks out", surveyInput({ units: [pack({ xMm: 11_401 })] }), "sticks out"],
    [
      "a tape from nothing",
      surveyInput({
        tape: [{ fromId: "ghost", toId: "pack", distanceMm: 1, direction: "beside" }],
      }),
      "no unit is called ghost",
    ],
    [
      "a tape from a unit to itself",
      surveyInput({ tape: [{ fromId: "pack", toId: "pack", distanceMm: 1, direction: "beside" }] }),
      "cannot be measured to",
    ],
    ["no width", surveyInput({ units: [pack({ widthMm: 0 })] }), "widthMm"],
    [
      "an endless width",
      surveyInput({ units: [pack({ widthMm: Number.POSITIVE_INFINITY })] }),
      "widthMm",
    ],
    [
      "temperatures upside down",
      surveyInput({ ambient: { minimumC: 10, maximumC: 5 } }),
      "above the highest",
    ],
    ["no text at all", null, "expected object"],
  ])("a survey with %s is refused with its place", (_case, input, words) => {
    expect(problemOf(input)).toContain(words);
  });

  test("a unit that ends exactly at the wall's end fits", () => {
    expect(problemOf(surveyInput({ units: [pack({ xMm: 11_400 })] }))).toBe("");
  });
});
