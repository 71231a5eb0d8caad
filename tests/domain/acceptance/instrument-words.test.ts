// What a person is told whose instrument cannot be relied on, and what to do about it. That it must
// be named and in calibration: IEC 60364-6 and ISO 10012:2003, from memory.
import { describe, expect, test } from "vitest";
import { doubtWords } from "../../../src/domain/acceptance/instrument-doubt.ts";
import type { InstrumentFacts } from "../../../src/domain/plan/context.ts";
import type { Draft } from "../plan/small-plan.ts";
import { METER, verdictOn, WRENCH } from "./judged.ts";

const ITEM: Draft = {
  kind: "measure",
  unit: "V",
  limit: { min: 38 },
  instrument: { class: "multimeter" },
};
const READ = "Read 40 V; needed at least 38 V. ";
const AGAIN = "Read again with an instrument in calibration, or enter the calibration it has.";
const NAME = "Name the multimeter that was used, or read again with one.";

const told = (instrumentId: string | undefined, instruments: InstrumentFacts[]) =>
  verdictOn(
    ITEM,
    { number: 40, unit: "V" },
    { answer: instrumentId === undefined ? {} : { instrumentId }, context: { instruments } },
  );

describe("an instrument that does not do", () => {
  const failed = { on: "2026-06-01", due: "2027-06-01", passed: false };
  test.each<[string, string | undefined, Partial<InstrumentFacts>, string, string]>([
    [
      "was not calibrated",
      "meter",
      { calibrations: [] },
      "M-01 had no calibration on 2026-11-25.",
      AGAIN,
    ],
    [
      "failed",
      "meter",
      { calibrations: [...METER.calibrations, failed] },
      "M-01 failed its calibration of 2026-06-01.",
      AGAIN,
    ],
    ["is retired", "meter", { retiredOn: "2026-11-01" }, "M-01 was retired on 2026-11-01.", AGAIN],
    [
      "is of another class",
      "wrench",
      {},
      "W-01 is a torque-wrench; this is read with a multimeter.",
      "Read again with a multimeter.",
    ],
    [
      "is not named",
      undefined,
      {},
      "No instrument is named; this is read with a multimeter.",
      NAME,
    ],
    ["is not the firm's", "gone", {}, "The instrument named is not one of the firm's.", NAME],
  ])("since it %s is told with the way out", (_what, instrumentId, more, sentence, toClear) => {
    expect(told(instrumentId, [{ ...METER, ...more }, WRENCH])).toMatchObject({
      ...{ clears: false, sentence: READ + sentence, toClear },
    });
  });
});

describe("where no class is asked for and the verdict rests on no accuracy", () => {
  const { instrument: _class, ...anyInstrument } = ITEM;
  const of = (answer: object) => verdictOn(anyInstrument, { number: 40, unit: "V" }, { answer });

  test("none need be named, and one that is not known does no harm", () => {
    expect(of({}).code).toBe("passed");
    expect(of({ instrumentId: "gone" }).code).toBe("passed");
  });
});

describe("where the verdict rests on its accuracy", () => {
  test("one of any class must be in calibration", () => {
    const { instrument: _class, ...item } = { ...ITEM, decisionRule: "guarded" } as typeof ITEM & {
      instrument?: unknown;
    };
    const of = (calibrations: InstrumentFacts["calibrations"]) =>
      verdictOn(
        item,
        { number: 60, unit: "V" },
        {
          answer: { instrumentId: "meter" },
          context: { instruments: [{ ...METER, calibrations }] },
        },
      ).code;
    expect(of(METER.calibrations)).toBe("passed");
    expect(of([])).toBe("instrument-out-of-calibration");
  });
});

test("an overload or drop that came to light is told as to this reading", () => {
  const words = (cause: "overload" | "dropped") =>
    doubtWords({ cause, found: "2026-03-05T10:30:00Z" });
  expect(words("overload")).toBe(
    "instrument later found overloaded (2026-03-05 at 10:30) and not rechecked before this reading",
  );
  expect(words("dropped")).toBe(
    "instrument later found dropped (2026-03-05 at 10:30) and not rechecked before this reading",
  );
});

describe("by the day on which it was read", () => {
  const passed = (on: string, due: string) => ({ on, due, passed: true });
  test.each<[string, ReturnType<typeof passed>, string, boolean]>([
    ["the day after it is due", passed("2026-01-31", "2026-12-31"), "2027-01-01", false],
    ["the day it is due", passed("2026-01-31", "2026-12-31"), "2026-12-31", true],
    ["soon after the turn of a year", passed("2025-12-15", "2027-01-15"), "2026-01-20", true],
    ["the day before it was made", passed("2025-12-15", "2027-01-15"), "2025-12-14", false],
    ["the month before it was made", passed("2026-01-15", "2027-01-15"), "2025-12-20", false],
    ["a December", passed("2025-01-15", "2027-01-15"), "2026-12-20", true],
    ["a December far beyond it", passed("2025-01-15", "2026-01-15"), "2026-12-20", false],
    ["the month after it is due", passed("2026-01-15", "2026-12-15"), "2027-01-02", false],
  ])("%s, calibrated %j, read on %s: %s", (_what, calibration, day, isFit) => {
    const { code } = verdictOn(
      ITEM,
      { number: 40, unit: "V" },
      {
        answer: { instrumentId: "meter", takenAt: `${day}T12:00:00Z` },
        context: { instruments: [{ ...METER, calibrations: [calibration] }] },
      },
    );
    expect(code).toBe(isFit ? "passed" : "instrument-out-of-calibration");
  });
});
