// What clears an answer that did not meet its item, in the usual words and in the plan's own; the
// words are our choice, common practice otherwise, no source.
import { describe, expect, test } from "vitest";
import type { Draft } from "../plan/small-plan.ts";
import { METER, pack, verdictOn } from "./judged.ts";

const OWN = "Ring the office.";
const volts = (number: unknown) => ({ number, unit: "V" });
const measure = (more: Draft = {}): Draft => ({
  ...{ kind: "measure", unit: "V", limit: { min: 38 } },
  ...more,
});
const tighten: Draft = { kind: "tighten", points: 2, unit: "N·m", limit: { min: 5, max: 7 } };
const serial: Draft = { kind: "identify", what: "serial", repeat: { per: "unit" } };
const level: Draft = { kind: "identify", what: "firmware-level", limit: { oneOf: ["2.4.1"] } };
const choose: Draft = { kind: "choose", options: ["A", "B"], limit: { oneOf: ["A"] } };
const set: Draft = { kind: "set", positions: [{ switch: "dip", position: "on" }] };
const one = { answer: { subject: "pack-1" } };
const setting = { number: 6, unit: "N·m" };

const USUAL: Record<string, string> = {
  confirm: "Do it and confirm.",
  measure: "Put right what causes it and measure again.",
  count: "Put right what causes it and measure again.",
  tighten: "Tighten every fastener of the group and tick each.",
  choose: "Change it to what is needed and answer again.",
  level: "Bring the unit to the level needed and read it off again.",
  serial: "Read the label again; if another unit was delivered, put that one on the job.",
  set: "Set the switches as shown and enter what they show.",
};
type Row = [string, Draft, unknown, Parameters<typeof verdictOn>[2]];
const FAILED: Row[] = [
  ["confirm", { kind: "confirm" }, { done: false }, {}],
  ["measure", measure(), volts(37), {}],
  ["measure", measure({ limit: { max: 2000 } }), volts(">999"), {}],
  ["count", { kind: "count", limit: { count: 4 } }, { count: 3 }, {}],
  ["tighten", tighten, { points: [1], setting }, { answer: { instrumentId: "wrench" } }],
  ["choose", choose, { choice: "B" }, {}],
  ["level", level, { text: "2.4.0" }, {}],
  ["level", { ...level, limit: { expression: 'value == "3"' } }, { text: "2" }, {}],
  ["serial", serial, { text: "KH00009" }, one],
  ["serial", { ...serial, limit: { expression: 'value == "3"' } }, { text: "KH00001" }, one],
  ["set", set, { positions: { dip: "off" } }, {}],
];

describe("what clears a failure", () => {
  test.each(FAILED)("is said in the usual words: %s %j %j", (kind, item, value, more) => {
    expect(verdictOn(item, value, more)).toMatchObject({ clears: false, toClear: USUAL[kind] });
  });

  test.each(FAILED)("or in the plan's: %s %j %j", (_kind, item, value, more) => {
    expect(verdictOn({ ...item, toClear: OWN }, value, more).toClear).toBe(OWN);
  });

  test.each<[Draft, unknown]>([
    [{ kind: "confirm" }, { done: true }],
    [measure(), volts(38)],
    [{ kind: "count", limit: { count: 4 } }, { count: 4 }],
    [choose, { choice: "A" }],
    [level, { text: "2.4.1" }],
    [set, { positions: { dip: "on" } }],
  ])("and nothing is to be cleared where it passes: %j %j", (item, value) => {
    expect(verdictOn(item, value)).not.toHaveProperty("toClear");
  });
});

describe("the way out is", () => {
  const guarded = { answer: { instrumentId: "meter" }, plan: { decisionRule: "guarded" } };
  const bare = { ...METER, accuracy: undefined };

  test("to know the accuracy, where the plan counts it and it is not known", () => {
    const context = { instruments: [bare] };
    expect(verdictOn(measure(), volts(39), { ...guarded, context })).toMatchObject({
      sentence:
        "Read 39 V; needed at least 38 V. " +
        "This plan counts the instrument's accuracy, which is not known.",
      toClear: "Enter the instrument's accuracy, or read with one whose accuracy is known.",
    });
  });

  test("to mend and measure again, near the limit too", () => {
    expect(verdictOn(measure(), volts(38.1), guarded)).toMatchObject({
      ...{ code: "guard-band", toClear: USUAL.measure },
    });
  });

  test("to answer again what cannot be read", () => {
    expect(verdictOn(measure(), { number: 5, unit: "A" })).toMatchObject({
      ...{ outcome: "fail", code: "unreadable", toClear: "Answer again." },
    });
  });

  test("to supply what a limit lacks", () => {
    const unknown = measure({ limit: { min: { cel: "1 / 0" } } });
    expect(verdictOn(unknown, volts(5))).toMatchObject({
      sentence: 'Read 5 V. The limit cannot be worked out: "1 / 0" gives no number here.',
      toClear: "Supply what is missing, then answer again.",
    });
  });

  test("to look at the model's rule, where the job's own serial number does not fit it", () => {
    const units = [pack(1, { serial: "KHX", serialRule: { mask: "KH#{5}", check: "none" } })];
    expect(verdictOn(serial, { text: "KHX" }, { ...one, context: { units } }).toClear).toBe(
      "Read the label again, and compare the model's rule for serial numbers.",
    );
  });

  const photo = (photos: number): Draft => ({ kind: "photo", photos });
  const sent = { answer: { photos: ["1".repeat(64)] }, context: { photosHeld: new Set<string>() } };
  test.each<[Draft, Parameters<typeof verdictOn>[2], string, string]>([
    [photo(1), {}, "0 of 1 photo is tied to it.", "Take the photo and answer again with it."],
    [photo(2), {}, "0 of 2 photos are tied to it.", "Take the photos and answer again with them."],
    [
      photo(1),
      sent,
      "Photographed. 1 photo is still to arrive.",
      "Let the tablet send its photos where there is signal.",
    ],
    [
      { kind: "photo", photos: 1, evidence: { note: true } },
      { answer: { photos: ["1".repeat(64)] } },
      "A note is asked for and there is none.",
      "Answer again with a note.",
    ],
  ])("to bring what is asked for: %j %j", (item, more, sentence, toClear) => {
    expect(verdictOn(item, {}, more)).toMatchObject({
      ...{ outcome: "missing", clears: false, sentence, toClear },
    });
  });
});
