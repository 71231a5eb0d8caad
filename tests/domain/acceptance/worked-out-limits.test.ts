// Limits that are worked out for each reading, and those that cannot be.
import { describe, expect, test } from "vitest";
import type { Draft } from "../plan/small-plan.ts";
import { verdictOn } from "./judged.ts";

const measure = (limit: Draft, unit = "V"): Draft => ({ kind: "measure", unit, limit });

describe("a limit that cannot be worked out accepts nothing and says why", () => {
  test.each<[Draft, string]>([
    [{ min: { cel: "1 / 0" } }, '"1 / 0" gives no number here'],
    [{ min: { cel: "0 / 0" } }, '"0 / 0" gives no number here'],
    [{ max: { cel: "max_zs('Q', 32)" } }, "Q"],
    [{ min: { cel: "1 / 0" }, max: 5 }, '"1 / 0" gives no number here'],
    [{ nominal: { cel: "1 / 0" }, tolerance: { absolute: 1 } }, '"1 / 0" gives no number here'],
    [{ expression: "value < max_zs('Q', 32)" }, "Q"],
  ])("%j", (limit, reason) => {
    const verdict = verdictOn(measure(limit), { number: 1, unit: "V" });
    expect(verdict).toMatchObject({ outcome: "fail", clears: false, code: "limit-not-computable" });
    expect(verdict.sentence).toContain("Read 1 V. The limit cannot be worked out: ");
    expect(verdict.sentence).toContain(reason);
  });

  test("a unit whose model lacks the attribute", () => {
    const item = measure({ min: { cel: "model.ocvMinV" } });
    const verdict = verdictOn(
      { ...item, repeat: { per: "unit" } },
      { number: 50, unit: "V" },
      { answer: { subject: "pack-1" }, plan: { attributes: { ocvMinV: "number" } } },
    );
    expect(verdict.sentence).toContain("model.ocvMinV is not known here");
  });
});

describe("a bound worked out", () => {
  const perPack = (limit: Draft): Draft => ({
    ...measure(limit),
    repeat: { per: "unit", ofKind: "battery-pack" },
  });
  const plan = {
    attributes: {
      cells: "number",
      nominalVoltageV: "number",
      hasHeater: "flag",
      connector: "text",
    },
  };

  test.each<[string, number, string]>([
    ["model.cells * 3", 48, "pass"],
    ["model.cells * 3", 47.9, "fail"],
    ["model.nominalVoltageV * 0.9", 46.08, "pass"],
    ["model.nominalVoltageV * unit.position", 102.4, "pass"],
    ["model.nominalVoltageV * unit.position", 102.3, "fail"],
    ["count.batteryPack * 20", 40, "pass"],
    ["count.batteryPack * 20", 39, "fail"],
    ["model.hasHeater ? 60 : 40", 40, "pass"],
    ['model.connector == "M8" ? 10 : 20', 10, "pass"],
    ['site.supply == "TT" ? 30 : 10', 29, "fail"],
    ['unit.serial.startsWith("KH") ? 1 : 2', 1, "pass"],
  ])("at least %s of the second pack, and %d: %s", (cel, number, expected) => {
    const verdict = verdictOn(
      perPack({ min: { cel } }),
      { number, unit: "V" },
      { answer: { subject: "pack-2" }, plan },
    );
    expect(verdict.outcome).toBe(expected);
  });

  test("is told with its figure", () => {
    const verdict = verdictOn(
      perPack({ min: { cel: "model.nominalVoltageV * 0.9" } }),
      { number: 46, unit: "V" },
      { answer: { subject: "pack-1" }, plan },
    );
    expect(verdict.sentence).toBe("Read 46 V; needed at least 46.08 V.");
    expect(verdict.needed).toBe("at least 46.08 V");
  });
});

describe("what depends on what is not known of the unit", () => {
  const told = (...given: Parameters<typeof verdictOn>) => {
    const { code, sentence } = verdictOn(...given);
    return `${code}: ${sentence}`;
  };
  const subject = { answer: { subject: "pack-1" }, plan: { attributes: { mode: "text" } } };
  const perUnit = { repeat: { per: "unit" } };

  test("a text is not accepted, and says why", () => {
    const item = { kind: "identify", what: "firmware-level", ...perUnit };
    const limit = { expression: "value == model.mode" };
    expect(told({ ...item, limit }, { text: "2.4" }, subject)).toBe(
      "limit-not-computable: Level read: 2.4. " +
        "The limit cannot be worked out: model.mode is not known here.",
    );
  });

  test("nor is a position, and it names the switch", () => {
    const positions = [
      { switch: "mode", position: "run" },
      { switch: "dial", position: { cel: "model.mode" } },
    ];
    const found = { positions: { mode: "stop", dial: "3" } };
    expect(told({ kind: "set", positions, ...perUnit }, found, subject)).toBe(
      "limit-not-computable: " +
        "The position of dial cannot be worked out: model.mode is not known here.",
    );
  });
});
