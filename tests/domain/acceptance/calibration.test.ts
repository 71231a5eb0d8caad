// Calibration by the day of the reading at the site. Recalibration at 12 months: ISO 6789-1 5.3
// (from memory); the rest is common practice, no source.
import { describe, expect, test } from "vitest";
import type { InstrumentFacts } from "../../../src/domain/plan/context.ts";
import { METER, verdictOn } from "./judged.ts";

const ITEM = {
  kind: "measure",
  unit: "V",
  limit: { min: 38 },
  instrument: { class: "multimeter" },
};
type Calibrations = InstrumentFacts["calibrations"];
const passed = (on: string, due: string) => ({ on, due, passed: true });
const failed = (on: string, due: string) => ({ on, due, passed: false });

function read(takenAt: string, more: Partial<InstrumentFacts>, timeZone = "Europe/London") {
  const { outcome, code, sentence } = verdictOn(
    ITEM,
    { number: 40, unit: "V" },
    {
      answer: { instrumentId: "meter", takenAt },
      context: {
        instruments: [{ ...METER, ...more }],
        site: { supply: "TT", region: "uk", country: "GB", timeZone },
      },
    },
  );
  return { outcome, code, sentence };
}

describe("an instrument is in calibration from its calibration to the day it is due", () => {
  const calibrations: Calibrations = [passed("2026-03-10", "2027-03-10")];
  test.each([
    ["2026-03-09T12:00:00Z", "instrument-out-of-calibration"],
    ["2026-03-10T00:00:00Z", "passed"],
    ["2026-11-25T12:00:00Z", "passed"],
    ["2027-03-10T23:59:59Z", "passed"],
    ["2027-03-11T00:00:00Z", "instrument-out-of-calibration"],
    ["2030-01-01T12:00:00Z", "instrument-out-of-calibration"],
  ])("%s: %s", (takenAt, code) => {
    expect(read(takenAt, { calibrations }).code).toBe(code);
  });
});

describe("the day is that of the site's calendar (IANA zones; day differences by hand)", () => {
  const calibrations: Calibrations = [passed("2026-03-10", "2026-11-25")];
  test.each([
    ["2026-11-25T23:30:00Z", "Europe/London", "passed"],
    ["2026-11-25T23:30:00Z", "Europe/Berlin", "instrument-out-of-calibration"],
    ["2026-11-26T04:59:00Z", "America/New_York", "passed"],
    ["2026-11-26T05:00:00Z", "America/New_York", "instrument-out-of-calibration"],
    ["2026-11-26T02:00:00+13:00", "Pacific/Auckland", "instrument-out-of-calibration"],
    ["2026-11-26T02:00:00+13:00", "Europe/London", "passed"],
    ["2026-11-25T10:59:00Z", "Pacific/Auckland", "passed"],
    ["2026-11-25T11:00:00Z", "Pacific/Auckland", "instrument-out-of-calibration"],
    ["2026-11-26T09:59:00Z", "Pacific/Pago_Pago", "passed"],
    ["2026-03-09T22:30:00Z", "Europe/Berlin", "instrument-out-of-calibration"],
    ["2026-03-09T23:00:00Z", "Europe/Berlin", "passed"],
  ])("%s at %s: %s", (takenAt, timeZone, code) => {
    expect(read(takenAt, { calibrations }, timeZone).code).toBe(code);
  });
});

describe("the latest calibration up to that day decides", () => {
  test.each<[string, Calibrations, string]>([
    [
      "a renewed one",
      [passed("2025-01-01", "2026-01-01"), passed("2026-01-01", "2027-01-01")],
      "passed",
    ],
    [
      "in whatever order they are listed",
      [passed("2026-01-01", "2027-01-01"), passed("2025-01-01", "2026-01-01")],
      "passed",
    ],
    [
      "a failed one after a passed one",
      [passed("2026-01-01", "2027-01-01"), failed("2026-06-01", "2027-06-01")],
      "instrument-out-of-calibration",
    ],
    [
      "adjusted on the day, as left",
      [failed("2026-06-01", "2027-06-01"), passed("2026-06-01", "2027-06-01")],
      "passed",
    ],
    [
      "one made later does not count back",
      [passed("2026-12-01", "2027-12-01")],
      "instrument-out-of-calibration",
    ],
    [
      "a later failure does not count back",
      [passed("2026-01-01", "2027-01-01"), failed("2026-12-01", "2027-12-01")],
      "passed",
    ],
    ["none", [], "instrument-out-of-calibration"],
  ])("%s", (_what, calibrations, code) => {
    expect(read("2026-11-25T12:00:00Z", { calibrations }).code).toBe(code);
  });
});

describe("an instrument that is not fit", () => {
  test.each([
    ["2026-11-24", "instrument-retired"],
    ["2026-11-25", "instrument-retired"],
    ["2026-11-26", "passed"],
  ])("retired on %s, read on 25 November: %s", (retiredOn, code) => {
    expect(read("2026-11-25T12:00:00Z", { retiredOn }).code).toBe(code);
  });

  test("is told with the reading, its reference and the day", () => {
    const calibrations = [passed("2025-11-24", "2026-11-24")];
    expect(read("2026-11-25T12:00:00Z", { calibrations })).toEqual({
      outcome: "stale-instrument",
      code: "instrument-out-of-calibration",
      sentence:
        "Read 40 V; needed at least 38 V. " +
        "M-01 was out of calibration: due 2026-11-24, read on 2026-11-25.",
    });
  });

  test.each([
    [{}, "instrument-missing", "missing"],
    [{ instrumentId: "gone" }, "instrument-unknown", "missing"],
    [{ instrumentId: "wrench" }, "instrument-class", "stale-instrument"],
    [{ instrumentId: "meter" }, "passed", "pass"],
  ])("%j: %s", (answer, code, outcome) => {
    expect(verdictOn(ITEM, { number: 40, unit: "V" }, { answer })).toMatchObject({ code, outcome });
  });

  test("does not hide that the reading itself fails", () => {
    expect(verdictOn(ITEM, { number: 30, unit: "V" }).code).toBe("failed");
  });

  test("is nobody's business where the plan asks for no instrument and counts no accuracy", () => {
    const { instrument: _class, ...item } = ITEM;
    const more = {
      answer: { instrumentId: "meter" },
      context: { instruments: [{ ...METER, calibrations: [] }] },
    };
    expect(verdictOn(item, { number: 40, unit: "V" }, more).code).toBe("passed");
  });
});
