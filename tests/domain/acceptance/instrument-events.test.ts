// An overloaded tool is checked before it is used again: ISO 6789-1:2017 5.3, from memory. Drops,
// and other instruments than torque tools: common practice, no source.
import { describe, expect, test } from "vitest";
import type { InstrumentEventFacts } from "../../../src/domain/plan/context.ts";
import { METER, verdictOn } from "./judged.ts";

const ITEM = {
  kind: "measure",
  unit: "V",
  limit: { min: 38 },
  instrument: { class: "multimeter" },
};

const event = (kind: InstrumentEventFacts["kind"], at: string) => ({ kind, at });

function read(takenAt: string, events: InstrumentEventFacts[], passedOn?: string) {
  const { calibrations } = METER;
  const passed = passedOn ? [{ on: passedOn, due: "2027-11-01", passed: true }] : [];
  const instruments = [{ ...METER, events, calibrations: [...calibrations, ...passed] }];
  return verdictOn(
    ITEM,
    { number: 40, unit: "V" },
    { answer: { instrumentId: "meter", takenAt }, context: { instruments } },
  );
}

describe("an event takes the instrument out of use from its moment on", () => {
  test.each([
    ["2026-11-20T10:29:59Z", "passed"],
    ["2026-11-20T10:30:00Z", "instrument-overloaded"],
    ["2026-11-20T11:30:00+01:00", "instrument-overloaded"],
    ["2026-11-20T11:29:00+01:00", "passed"],
    ["2026-11-25T09:00:00Z", "instrument-overloaded"],
  ])("overloaded at half past ten, read at %s: %s", (takenAt, code) => {
    expect(read(takenAt, [event("overload", "2026-11-20T10:30:00Z")]).code).toBe(code);
  });

  test.each([
    ["overload", "instrument-overloaded"],
    ["dropped", "instrument-dropped"],
    ["recheck-failed", "instrument-recheck-failed"],
    ["recheck-passed", "passed"],
  ] as const)("%s: %s", (kind, code) => {
    expect(read("2026-11-25T09:00:00Z", [event(kind, "2026-11-20T10:30:00Z")]).code).toBe(code);
  });

  test("it says what happened, when at the site, and the way out", () => {
    expect(read("2026-11-25T09:00:00Z", [event("dropped", "2026-07-20T10:30:00Z")])).toMatchObject({
      outcome: "stale-instrument",
      clears: false,
      sentence:
        "Read 40 V; needed at least 38 V. M-01 was dropped on 2026-07-20 at 11:30 " +
        "and had passed no recheck or later calibration since.",
      toClear:
        "Read again with a sound instrument, or enter the recheck or calibration that it passed.",
    });
  });
});

describe("a passed recheck or a passed calibration of a later day brings it back", () => {
  const overload = event("overload", "2026-11-20T10:30:00Z");
  test.each([
    ["2026-11-20T13:59:59Z", "instrument-overloaded"],
    ["2026-11-20T14:00:00Z", "passed"],
  ])("rechecked at two, read at %s: %s", (takenAt, code) => {
    const events = [overload, event("recheck-passed", "2026-11-20T14:00:00Z")];
    expect(read(takenAt, events).code).toBe(code);
  });

  test.each([
    ["2026-11-19", "2026-11-25T09:00:00Z", "instrument-overloaded"],
    ["2026-11-20", "2026-11-25T09:00:00Z", "instrument-overloaded"],
    ["2026-11-21", "2026-11-20T23:59:59Z", "instrument-overloaded"],
    ["2026-11-21", "2026-11-21T00:00:00Z", "passed"],
    ["2026-11-21", "2026-11-25T09:00:00Z", "passed"],
  ])("calibrated on %s, read at %s: %s", (passedOn, takenAt, code) => {
    expect(read(takenAt, [overload], passedOn).code).toBe(code);
  });

  test.each([
    [
      "a failed recheck after a passed one",
      [
        event("recheck-passed", "2026-11-20T14:00:00Z"),
        event("recheck-failed", "2026-11-21T14:00:00Z"),
      ],
      "instrument-recheck-failed",
    ],
    [
      "a recheck before the overload",
      [event("recheck-passed", "2026-11-19T14:00:00Z"), overload],
      "instrument-overloaded",
    ],
    [
      "of one moment the later entry",
      [overload, event("recheck-passed", "2026-11-20T10:30:00Z")],
      "passed",
    ],
    [
      "a second drop after the recheck",
      [
        overload,
        event("recheck-passed", "2026-11-20T14:00:00Z"),
        event("dropped", "2026-11-22T08:00:00Z"),
      ],
      "instrument-dropped",
    ],
  ])("the last counts: %s", (_what, events, code) => {
    expect(read("2026-11-25T09:00:00Z", events).code).toBe(code);
  });

  test("a calibration that was due is told before what happened", () => {
    const verdict = verdictOn(
      ITEM,
      { number: 40, unit: "V" },
      {
        answer: { instrumentId: "meter" },
        context: { instruments: [{ ...METER, calibrations: [], events: [overload] }] },
      },
    );
    expect(verdict.code).toBe("instrument-out-of-calibration");
  });
});
