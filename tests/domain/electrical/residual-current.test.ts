import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  gfciMaxTripS,
  rcdMaxTripMs,
  rcdMinTripMs,
} from "../../../src/domain/electrical/residual-current.ts";
import { answered, numberOf, reasonOf, refused } from "./outcomes.ts";

describe("RCD trip times (IEC 61008-1 / 61009-1 Table 1, seen in a secondary page)", () => {
  it.each([
    ["general", 1, 300],
    ["general", 2, 150],
    ["general", 5, 40],
    ["S", 1, 500],
    ["S", 2, 200],
    ["S", 5, 150],
  ])("of type %s at %s × IΔn are at most %s ms", (type, multiple, ms) => {
    expect(numberOf(rcdMaxTripMs(type, multiple))).toBe(ms);
  });

  it.each([
    ["S", 1, 130],
    ["S", 2, 60],
    ["S", 5, 50],
    ["general", 1, 0],
  ])("of type %s at %s × IΔn are at least %s ms (2× and 5× from memory)", (type, multiple, ms) => {
    expect(numberOf(rcdMinTripMs(type, multiple))).toBe(ms);
  });

  it.each([
    ["general", 30, 1, 300, true],
    ["general", 30, 1, 300.1, false],
    ["general", 30, 2, 150, true],
    ["general", 30, 2, 150.1, false],
    ["general", 30, 5, 40, true],
    ["general", 30, 5, 40.1, false],
    ["general", 30, 1, 0, true],
    ["S", 100, 1, 129, false],
    ["S", 100, 1, 130, true],
    ["S", 100, 1, 500, true],
    ["S", 100, 1, 500.1, false],
    ["S", 100, 2, 59.9, false],
    ["S", 100, 2, 60, true],
    ["S", 100, 5, 49.9, false],
    ["S", 100, 5, 150, true],
    ["S", 100, 5, 150.1, false],
  ])("judge type %s, %s mA, at %s × IΔn, %s ms: %s", (type, idn, multiple, measuredMs, passes) => {
    const input = { type, residualCurrentMa: idn, multiple, measuredMs };
    expect(answered("rcd-trip-time", input).passes).toBe(passes);
  });

  it("tell a selective type that is too fast from one that is too slow", () => {
    const input = { type: "S", residualCurrentMa: 100, multiple: 1 };
    const fast = answered("rcd-trip-time", { ...input, measuredMs: 129 });
    const slow = answered("rcd-trip-time", { ...input, measuredMs: 501 });
    expect(fast.margin).toBe(-1);
    expect(fast.notes.join(" ")).toContain("Too fast");
    expect(slow.margin).toBe(-1);
    expect(slow.notes.join(" ")).toContain("Too slow");
    for (const measuredMs of [130, 500]) {
      const fair = answered("rcd-trip-time", { ...input, measuredMs });
      expect(fair.notes.join(" ")).not.toContain("Too ");
    }
  });

  it("name BS 7671:2018+A2:2022, 643.8, for the test at IΔn (from memory)", () => {
    const answer = answered("rcd-trip-time", {
      type: "general",
      residualCurrentMa: 30,
      multiple: 1,
    });
    expect(answer.edition).toContain("BS 7671:2018+A2:2022");
    expect(answer.steps[0]?.result).toBe(30);
  });

  it("do not exist at half current, where an RCD must not trip", () => {
    expect(reasonOf(rcdMaxTripMs("general", 0.5))).toBe("not-applicable");
  });

  it("are not interpolated between the multiples of the table", () => {
    expect(reasonOf(rcdMaxTripMs("general", 3))).toBe("out-of-range");
    expect(reasonOf(rcdMaxTripMs("G", 1))).toBe("bad-input");
  });

  it.each([
    [30, "refused"],
    [31, "answered"],
  ])("of a selective type of %s mA are %s (made above 30 mA, from memory)", (idn, expected) => {
    const input = { type: "S", residualCurrentMa: idn, multiple: 1 };
    const outcome = expected === "refused" ? refused : answered;
    expect(outcome("rcd-trip-time", input)).toBeDefined();
  });
});

describe("half-current test (IEC 61008-1 / 61009-1 Table 1, seen in a secondary page)", () => {
  it.each([
    [false, true, 0],
    [true, false, -15],
  ])("with tripped = %s passes: %s", (tripped, passes, margin) => {
    const answer = answered("rcd-no-trip", { residualCurrentMa: 30, tripped });
    expect(answer.result).toBe(15);
    expect(answer.passes).toBe(passes);
    expect(answer.margin).toBe(margin);
  });
});

describe("RCD trip current (IEC 61008-1, from memory)", () => {
  it.each([
    ["pulsating", 30, 10.4, false],
    ["pulsating", 30, 10.5, true],
    ["pulsating", 30, 42, true],
    ["pulsating", 30, 42.1, false],
    ["pulsating", 10, 20, true],
    ["pulsating", 10, 20.1, false],
    ["pulsating", 10.1, 14.14, true],
    ["pulsating", 10.1, 14.2, false],
    ["sinusoidal", 30, 15, true],
    ["sinusoidal", 30, 14.9, false],
    ["sinusoidal", 30, 30, true],
    ["sinusoidal", 30, 30.1, false],
  ])("with %s residual current, IΔn %s mA, tripped at %s mA: %s", (waveform, idn, ma, passes) => {
    const input = { waveform, residualCurrentMa: idn, measuredMa: ma };
    expect(answered("rcd-trip-current", input).passes).toBe(passes);
  });
});

describe("class A GFCI (UL 943, from memory; values computed)", () => {
  it.each([
    [6, 5.594],
    [20, 1],
    [100, 0.1001],
    [264, 0.02498],
  ])("at %s mA trips within %s s", (ma, seconds) => {
    expect(numberOf(gfciMaxTripS(ma)) / seconds).toBeCloseTo(1, 3);
  });

  it.each([
    [3.9, "not-applicable", "must not trip"],
    [4, "not-applicable", "may or may not trip"],
    [5.9, "not-applicable", "may or may not trip"],
    [264.1, "out-of-range", "ends at 264 mA"],
  ])("has no time at %s mA: %s", (ma, reason, words) => {
    const figure = gfciMaxTripS(ma);
    expect(reasonOf(figure)).toBe(reason);
    expect(figure.ok ? "" : figure.problem).toContain(words);
  });

  it.each([
    [3.9, false],
    [4, true],
    [6, true],
    [6.1, false],
  ])("that trips at %s mA passes: %s", (measuredMa, passes) => {
    expect(answered("gfci-trip-current", { measuredMa }).passes).toBe(passes);
  });

  it.each([
    [1, true],
    [1.001, false],
  ])("that takes %s s at 20 mA passes: %s", (measuredS, passes) => {
    expect(answered("gfci-trip-time", { faultCurrentMa: 20, measuredS }).passes).toBe(passes);
  });

  it("never gets longer for a larger current", () => {
    const currents = fc.double({ min: 6, max: 264, noNaN: true });
    fc.assert(
      fc.property(currents, currents, (one, other) => {
        const slow = numberOf(gfciMaxTripS(Math.min(one, other)));
        expect(numberOf(gfciMaxTripS(Math.max(one, other)))).toBeLessThanOrEqual(slow);
      }),
    );
  });
});
