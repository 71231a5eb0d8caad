import { describe, expect, it } from "vitest";
import { maxDisconnectionTimeS } from "../../../src/domain/electrical/disconnection-time.ts";
import { maxElectrodeOhm } from "../../../src/domain/electrical/earth-electrode.ts";
import { prospectiveFaultA } from "../../../src/domain/electrical/resistance-networks.ts";
import { answered, numberOf, reasonOf, refused } from "./outcomes.ts";

describe("longest disconnection time (IEC 60364-4-41 Table 41.1, seen in a secondary page)", () => {
  it.each([
    ["TN", "ac", 50.1, 0.8],
    ["TN", "ac", 120, 0.8],
    ["TN", "ac", 120.1, 0.4],
    ["TN", "ac", 230, 0.4],
    ["TN", "ac", 230.1, 0.2],
    ["TN", "ac", 400, 0.2],
    ["TN", "ac", 400.1, 0.1],
    ["TT", "ac", 120, 0.3],
    ["TT", "ac", 120.1, 0.2],
    ["TT", "ac", 230, 0.2],
    ["TT", "ac", 230.1, 0.07],
    ["TT", "ac", 400, 0.07],
    ["TT", "ac", 400.1, 0.04],
    ["TN", "dc", 230.1, 0.4],
    ["TN", "dc", 400.1, 0.1],
    ["TT", "dc", 120.1, 0.4],
    ["TT", "dc", 230.1, 0.2],
    ["TT", "dc", 400.1, 0.1],
  ])("of a %s %s final circuit at %s V is %s s", (system, current, u0V, seconds) => {
    expect(numberOf(maxDisconnectionTimeS(system, current, u0V))).toBe(seconds);
  });

  it("of TN DC at 230 V is 5 s in the 2005 edition and 1 s since 2017 (from memory)", () => {
    expect(numberOf(maxDisconnectionTimeS("TN", "dc", 230, "2005"))).toBe(5);
    expect(numberOf(maxDisconnectionTimeS("TN", "dc", 230, "2017-amendment"))).toBe(1);
    expect(numberOf(maxDisconnectionTimeS("TN", "dc", 400, "2005"))).toBe(0.4);
    expect(numberOf(maxDisconnectionTimeS("TN", "dc", 401, "2005"))).toBe(0.1);
    expect(numberOf(maxDisconnectionTimeS("TT", "ac", 230, "2005"))).toBe(0.2);
    const old = answered("max-disconnection-time", {
      system: "TN",
      current: "dc",
      u0V: 230,
      circuit: "final",
      edition: "2005",
    });
    expect(old.edition).toBe("IEC 60364-4-41:2005");
  });

  it.each([
    ["at 50 V, where extra-low voltage rules begin", "TN", "ac", 50, "not-applicable"],
    [
      "for DC between 50 V and 120 V, where the table has a note",
      "TT",
      "dc",
      120,
      "not-applicable",
    ],
    ["for TN DC at 100 V likewise", "TN", "dc", 100, "not-applicable"],
    ["above 1000 V AC", "TN", "ac", 1000.1, "out-of-range"],
    ["for an IT system, which is not held here", "IT", "ac", 230, "bad-input"],
  ])("is refused %s", (_name, system, current, u0V, reason) => {
    expect(reasonOf(maxDisconnectionTimeS(system, current, u0V))).toBe(reason);
  });

  it("is still given at 1000 V AC and at 1500 V DC", () => {
    expect(numberOf(maxDisconnectionTimeS("TN", "ac", 1000))).toBe(0.1);
    expect(numberOf(maxDisconnectionTimeS("TN", "dc", 1500))).toBe(0.1);
  });

  it.each([
    ["TN", 5],
    ["TT", 1],
  ])("of a %s distribution circuit is %s s (411.3.2.3, 411.3.2.4, from memory)", (system, s) => {
    const common = { system, current: "dc", u0V: 100, circuit: "distribution" };
    expect(answered("max-disconnection-time", common).result).toBe(s);
  });

  it.each([
    [0.4, true],
    [0.401, false],
  ])("lets a device that takes %s s at 230 V pass: %s", (deviceTimeS, passes) => {
    const circuit = { system: "TN", current: "ac", u0V: 230, circuit: "final", deviceTimeS };
    expect(answered("max-disconnection-time", circuit).passes).toBe(passes);
  });
});

describe("TT electrode (IEC 60364-4-41 411.5.3, BS 7671 Table 41.5, from memory)", () => {
  it.each([
    [30, 1667],
    [100, 500],
    [300, 167],
    [500, 100],
  ])("behind an RCD of %s mA may have %s Ω", (residualCurrentMa, ohm) => {
    expect(Math.round(numberOf(maxElectrodeOhm(residualCurrentMa)))).toBe(ohm);
  });

  it.each([
    [100, true],
    [100.1, false],
  ])("of %s Ω behind 500 mA passes: %s", (measuredOhm, passes) => {
    const input = { residualCurrentMa: 500, measuredOhm };
    expect(answered("tt-electrode-resistance", input).passes).toBe(passes);
  });

  it.each([
    [200, false],
    [200.1, true],
  ])("of %s Ω is called unstable: %s, though it passes behind 30 mA", (measuredOhm, unstable) => {
    const answer = answered("tt-electrode-resistance", { residualCurrentMa: 30, measuredOhm });
    expect(answer.passes).toBe(true);
    expect(answer.notes.some((note) => note.includes("this one is"))).toBe(unstable);
  });

  it("is halved where a special location permits 25 V only (common practice, no source)", () => {
    const input = { residualCurrentMa: 100, touchVoltageV: 25 };
    expect(answered("tt-electrode-resistance", input).result).toBe(250);
  });
});

describe("single rod (NEC 250.53(A)(2), from memory)", () => {
  it.each([
    [25, true],
    [25.1, false],
  ])("of %s Ω stands alone: %s", (measuredOhm, passes) => {
    const answer = answered("single-rod-resistance", { measuredOhm });
    expect(answer.passes).toBe(passes);
    expect(answer.notes.some((note) => note.includes("second electrode"))).toBe(!passes);
  });
});

describe("prospective fault current (U0 / Z, computed)", () => {
  it("of 230 V over 0.25 Ω is 920 A", () => {
    expect(numberOf(prospectiveFaultA(230, 0.25))).toBe(920);
  });

  it.each([
    [920, true],
    [919.9, false],
  ])("is broken by a device rated %s A: %s", (breakingCapacityA, passes) => {
    const input = { voltageV: 230, impedanceOhm: 0.25, breakingCapacityA };
    expect(answered("prospective-fault-current", input).passes).toBe(passes);
  });

  it("is refused for an impedance of zero instead of being infinite", () => {
    expect(reasonOf(prospectiveFaultA(230, 0))).toBe("bad-input");
  });
});

describe("a TT system's circuit-breaker", () => {
  it("is refused a loop-impedance limit, because the electrode is too high", () => {
    const input = { system: "TT", curve: "C", ratingA: 16 };
    expect(refused("max-earth-loop-impedance", input).reason).toBe("not-applicable");
  });
});
