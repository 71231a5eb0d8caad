// The serial number read off a unit, against the unit on the job.
import { describe, expect, test } from "vitest";
import type { Draft } from "../plan/small-plan.ts";
import { pack, verdictOn } from "./judged.ts";

const codeOf = (
  item: Draft,
  value: unknown,
  more: Parameters<typeof verdictOn>[2] = {},
): string => {
  const { code, sentence } = verdictOn(item, value, more);
  return `${code}: ${sentence}`;
};

describe("identify a serial number", () => {
  const perPack = { kind: "identify", what: "serial", repeat: { per: "unit" } };
  const rule = { mask: "KH#{5}", check: "none" } as const;
  const units = [pack(1, { serialRule: rule }), pack(2, { serialRule: rule })];
  const of = (text: string) =>
    codeOf(perPack, { text }, { answer: { subject: "pack-1" }, context: { units } });

  test("that of the unit passes, however it is spaced and whatever its case", () => {
    expect(of("KH00001")).toBe("passed: Serial number KH00001 is the one on the job.");
    expect(of(" kh 00001 ")).toBe("passed: Serial number KH00001 is the one on the job.");
  });

  test("that of another unit on the job does not", () => {
    expect(of("KH00002")).toBe("serial-mismatch: Read KH00002; the job has KH00001.");
  });

  test("one that is not of its model's form says which character is wrong", () => {
    expect(of("KHO0001")).toMatch(
      /^serial-mismatch: Read KHO0001; the job has KH00001\. Character 3/,
    );
  });

  test("one on the job that its model's rule refuses is told apart", () => {
    const odd = [pack(1, { serial: "KHX", serialRule: rule })];
    const more = { answer: { subject: "pack-1" }, context: { units: odd } };
    expect(codeOf(perPack, { text: "KHX" }, more)).toMatch(/^serial-malformed: Read KHX\. /);
  });

  test("asked once, it must be that of some unit on the job", () => {
    const once = { kind: "identify", what: "serial" };
    expect(codeOf(once, { text: "KH00002" })).toContain("passed: ");
    expect(codeOf(once, { text: "KH00003" })).toBe(
      "serial-mismatch: Read KH00003; the job has no unit of that number.",
    );
  });

  test("a limit on it counts too", () => {
    const batch = { ...perPack, limit: { expression: 'value.endsWith("2")' } };
    const more = { answer: { subject: "pack-1" } };
    expect(codeOf(batch, { text: "KH00001" }, more)).toBe(
      'failed: Serial number KH00001 is on the job; needed value.endsWith("2").',
    );
  });
});
