// What must come with an answer: photos, and a note.
import { describe, expect, test } from "vitest";
import type { Draft } from "../plan/small-plan.ts";
import { verdictOn } from "./judged.ts";

const codeOf = (
  item: Draft,
  value: unknown,
  more: Parameters<typeof verdictOn>[2] = {},
): string => {
  const { code, sentence } = verdictOn(item, value, more);
  return `${code}: ${sentence}`;
};

describe("evidence", () => {
  const [one, two] = ["1".repeat(64), "2".repeat(64)];
  const photo = { kind: "photo", photos: 2 };

  test.each<[string[], string]>([
    [[one, two], "passed: Photographed."],
    [[one], "photo-missing: 1 of 2 photos are tied to it."],
    [[one, one], "photo-missing: 1 of 2 photos are tied to it."],
    [[], "photo-missing: 0 of 2 photos are tied to it."],
  ])("photos %j", (photos, expected) => {
    expect(codeOf(photo, {}, { answer: { photos } })).toBe(expected);
  });

  test.each<[string, string[] | undefined, string]>([
    ["is not known (the tablet)", undefined, "passed: Photographed."],
    ["is known to be so", [one, two], "passed: Photographed."],
    ["is known of one only", [one], "photo-not-arrived: Photographed. 1 photo is still to arrive."],
    ["is known of none", [], "photo-not-arrived: Photographed. 2 photos are still to arrive."],
  ])("a photo whose arrival %s", (_what, held, expected) => {
    const context = held ? { photosHeld: new Set(held) } : {};
    expect(codeOf(photo, {}, { answer: { photos: [one, two] }, context })).toBe(expected);
  });

  test("a photo still to arrive does not hide that the reading fails", () => {
    const item = { kind: "confirm", evidence: { photos: 1 } };
    const more = { answer: { photos: [one] }, context: { photosHeld: new Set<string>() } };
    expect(codeOf(item, { done: false }, more)).toBe("failed: Marked as not done.");
  });

  test("one photo more than needed may be late", () => {
    const item = { kind: "confirm", evidence: { photos: 1 } };
    const more = { answer: { photos: [one, two] }, context: { photosHeld: new Set([one]) } };
    expect(codeOf(item, { done: true }, more)).toBe("passed: Confirmed.");
  });

  test.each<[string | undefined, string]>([
    ["all well", "passed: Confirmed."],
    ["  ", "note-missing: Confirmed. A note is asked for and there is none."],
    [undefined, "note-missing: Confirmed. A note is asked for and there is none."],
  ])("a note %j", (note, expected) => {
    const item = { kind: "confirm", evidence: { note: true } };
    expect(codeOf(item, { done: true }, { answer: note === undefined ? {} : { note } })).toBe(
      expected,
    );
  });

  test("is not asked for where the reading fails anyway", () => {
    const item = { kind: "confirm", evidence: { photos: 1 } };
    expect(codeOf(item, { done: false })).toBe("failed: Marked as not done.");
  });
});
