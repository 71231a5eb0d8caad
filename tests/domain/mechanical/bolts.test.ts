import { describe, expect, test } from "vitest";
import {
  boltProofLoad,
  boltTorqueShortForm,
} from "../../../src/domain/mechanical/bolt-short-form.ts";
import { boltPreload, boltTorque } from "../../../src/domain/mechanical/bolt-torque.ts";
import type { Answer, Outcome } from "../../../src/domain/mechanical/calculation.ts";
import { findThread } from "../../../src/domain/mechanical/metric-thread.ts";

function answer(outcome: Outcome): Answer {
  if (!outcome.ok) throw new Error(outcome.problem);
  return outcome;
}
const input = (thread: string, propertyClass: string, frictionCoefficient: number) => ({
  thread,
  propertyClass,
  frictionCoefficient,
  yieldShare: 0.9,
});
const torque = (thread: string, propertyClass: string, friction: number) =>
  answer(boltTorque.compute(input(thread, propertyClass, friction))).result;
const preload = (thread: string, propertyClass: string, friction: number) =>
  answer(boltPreload.compute(input(thread, propertyClass, friction))).result;
const within = (value: number, expected: number, percent: number) => {
  expect(value).toBeGreaterThan(expected * (1 - percent / 100));
  expect(value).toBeLessThan(expected * (1 + percent / 100));
};

describe("stress areas (ISO 898-1, memory)", () => {
  test.each([
    ["M5", 14.2],
    ["M6", 20.1],
    ["M8", 36.6],
    ["M10", 58.0],
    ["M12", 84.3],
    ["M14", 115],
    ["M16", 157],
    ["M8x1", 39.2],
    ["M10x1.25", 61.2],
    ["M12x1.25", 92.1],
    ["M14x1.5", 125],
    ["M16x1.5", 167],
  ])("%s has %s mm²", (name, areaMm2) => {
    const found = findThread(name);
    within(found.ok ? found.thread.stressAreaMm2 : 0, areaMm2, 0.5);
  });

  test("a fine thread may be written with a multiplication sign or in small letters", () => {
    expect(findThread("m8×1")).toEqual(findThread("M8x1"));
  });
});

describe("VDI 2230, class 8.8, coarse, 90 % of yield (memory; ±2 %)", () => {
  test.each([
    ["M5", 0.1, 5.15],
    ["M5", 0.12, 5.9],
    ["M5", 0.14, 6.48],
    ["M6", 0.1, 8.96],
    ["M6", 0.12, 10.1],
    ["M6", 0.14, 11.26],
    ["M8", 0.1, 21.64],
    ["M8", 0.12, 24.6],
    ["M8", 0.14, 27.3],
    ["M10", 0.1, 42.62],
    ["M10", 0.12, 48],
    ["M10", 0.14, 53.9],
  ])("%s at µ %s takes %s N·m", (thread, friction, torqueNm) => {
    within(torque(thread, "8.8", friction), torqueNm, 2);
  });

  test.each([
    ["M5", 7.2],
    ["M6", 10.18],
    ["M8", 18.63],
    ["M10", 29.6],
  ])("%s at µ 0.12 is preloaded to %s kN", (thread, preloadKN) => {
    within(preload(thread, "8.8", 0.12), preloadKN, 2);
  });
});

describe("VDI 2230 fine-thread tables, 2001 and later (seen in a secondary page; ±2 %)", () => {
  test.each([
    ["M8x1", "8.8", 0.1, 20.7, 22.8],
    ["M8x1", "8.8", 0.12, 20.2, 26.1],
    ["M8x1", "8.8", 0.14, 19.7, 29.2],
    ["M8x1", "10.9", 0.12, 29.7, 38.3],
    ["M8x1", "12.9", 0.12, 34.7, 44.9],
    ["M10x1.25", "8.8", 0.1, 32.4, 44],
    ["M10x1.25", "8.8", 0.12, 31.6, 51],
    ["M10x1.25", "10.9", 0.14, 45.2, 83],
    ["M10x1.25", "12.9", 0.12, 54.3, 87],
    ["M12x1.25", "8.8", 0.12, 48.0, 90],
    ["M12x1.25", "10.9", 0.1, 72.1, 116],
    ["M14x1.5", "8.8", 0.12, 64.8, 142],
    ["M16x1.5", "8.8", 0.12, 87.6, 218],
    ["M16x1.5", "12.9", 0.14, 146.9, 420],
  ])("%s, class %s, µ %s: %s kN", (thread, propertyClass, friction, preloadKN, torqueNm) => {
    within(preload(thread, propertyClass, friction), preloadKN, 2);
    within(torque(thread, propertyClass, friction), torqueNm, 2);
  });
});

// The standard rounds to three digits, and M6 downwards: 580 MPa · 20.1 mm² is 11.66 kN.
describe("proof load (ISO 898-1, class 8.8, memory; ±0.75 %)", () => {
  test.each([
    ["M5", 8.23],
    ["M6", 11.6],
    ["M8", 21.2],
    ["M10", 33.7],
  ])("%s: %s kN", (thread, loadKN) => {
    within(answer(boltProofLoad.compute({ thread, propertyClass: "8.8" })).result, loadKN, 0.75);
  });
});

describe("short form T = K·F·d (Shigley)", () => {
  test("K 0.2, 75 % of 580·As, M8: 25.48 N·m", () => {
    const short = answer(boltTorqueShortForm.compute(boltTorqueShortForm.example));
    expect(short.result).toBeCloseTo(25.48, 2);
    expect(short.steps.map((step) => step.unit)).toEqual(["kN", "kN", "N·m", "lbf·ft"]);
  });
});

describe("torque in pound-force feet (NIST SP 811)", () => {
  test("10 N·m is 7.375621 lbf·ft", () => {
    const steps = answer(boltTorque.compute(boltTorque.example)).steps;
    const [torqueNm = 0, torqueLbfFt = 0] = steps.slice(-2).map((step) => step.result);
    expect((torqueLbfFt / torqueNm) * 10).toBeCloseTo(7.375621, 6);
  });
});

describe("refusals", () => {
  test.each([
    ["a thread that the table does not hold", { thread: "M7" }, "out-of-range", "M6, M8"],
    ["a stainless bolt", { propertyClass: "A2-70" }, "not-applicable", "only steel 8.8"],
    ["no friction", { frictionCoefficient: 0 }, "bad-input", "frictionCoefficient"],
    ["more than 90 % of yield", { yieldShare: 0.91 }, "bad-input", "yieldShare"],
    [
      "a text for a number",
      { frictionCoefficient: "0.12" as never },
      "bad-input",
      "expected number",
    ],
  ])("%s", (_case, change, reason, words) => {
    const outcome = boltTorque.compute({ ...boltTorque.example, ...change });
    expect(outcome).toMatchObject({ ok: false, reason, problem: expect.stringContaining(words) });
  });

  test("every bolt torque says that terminals are another matter", () => {
    for (const one of [
      boltTorque.compute(boltTorque.example),
      boltPreload.compute(boltPreload.example),
    ]) {
      expect(answer(one).caution).toContain("Steel-bolt torques are not terminal torques");
    }
  });
});
