import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { convert } from "../../../src/domain/quantities/convert.ts";
import {
  displayUnit,
  readableUnit,
  UNIT_SYSTEMS,
} from "../../../src/domain/quantities/display-unit.ts";
import {
  type FormatOptions,
  formatQuantity,
} from "../../../src/domain/quantities/format-quantity.ts";
import { parseQuantity } from "../../../src/domain/quantities/parse-quantity.ts";
import {
  QUANTITIES,
  type Quantity,
  quantityOf,
  UNIT_SYMBOLS,
  type Unit,
} from "../../../src/domain/quantities/units.ts";

describe("a shown value (layout: SI Brochure 5.4.3; digits: common practice, no source)", () => {
  test.each<readonly [number, Unit, FormatOptions, string]>([
    [2.5, "N·m", { resolution: 0.01 }, "2.50 N·m"],
    [2.5, "N·m", {}, "2.5 N·m"],
    [10, "N·m", { system: "us" }, "88.51 lbf·in"],
    [10, "N·m", { system: "metric" }, "10 N·m"],
    [24, "lbf·in", { system: "metric" }, "2.712 N·m"],
    [10, "N·m", { resolution: 0.1, system: "us" }, "88.5 lbf·in"],
    [25, "°C", { system: "us" }, "77 °F"],
    [-5, "°C", {}, "\u22125 °C"],
    [21.46, "°C", {}, "21.5 °C"],
    [1.005, "V", { resolution: 0.01 }, "1.01 V"],
    [-0.001, "V", { resolution: 0.1 }, "0.0 V"],
    [0.1, "V", { resolution: 0.25 }, "0.10 V"],
    [12345.6, "V", {}, "12346 V"],
    [0.000351, "Ω", {}, "0.000351 Ω"],
    [999, "MΩ", { system: "us" }, "999 MΩ"],
    [914.4, "mm", { system: "us" }, "36 in"],
    [3, "ft", { system: "metric" }, "0.9144 m"],
    [7, "count", {}, "7"],
    [0, "V", {}, "0 V"],
    [9.9996, "V", {}, "10 V"],
    [5, "%", {}, "5 %"],
    [1234, "V", { resolution: 100 }, "1234 V"],
  ])("%d %s with %j reads %s", (value, unit, options, expected) => {
    expect(formatQuantity(value, unit, options)).toBe(expected);
  });

  test("a resolution of zero or less, or a value that is not finite, is a bug", () => {
    expect(() => formatQuantity(1, "V", { resolution: 0 })).toThrow(RangeError);
    expect(() => formatQuantity(1, "V", { resolution: Number.NaN })).toThrow(RangeError);
    expect(() => formatQuantity(Number.NaN, "V")).toThrow(RangeError);
  });

  test("what is shown can be typed back and lies within half of the last digit", () => {
    const units = UNIT_SYMBOLS.filter((unit) => unit !== "count");
    fc.assert(
      fc.property(
        fc.constantFrom(...units),
        fc.double({ noNaN: true, min: -1e6, max: 1e6 }),
        (unit, value) => {
          const back = parseQuantity(formatQuantity(value, unit, { resolution: 0.001 }));
          return back.ok && back.unit === unit && Math.abs(back.value - value) <= 0.0005000001;
        },
      ),
      { numRuns: 2000 },
    );
  });
});

describe("the unit shown (common practice, no source)", () => {
  test("every quantity has a unit of that quantity in both systems", () => {
    for (const quantity of QUANTITIES) {
      for (const system of UNIT_SYSTEMS) {
        expect(quantityOf(displayUnit(quantity, system))).toBe(quantity);
      }
    }
  });

  test.each<readonly [Quantity, Unit, Unit]>([
    ["torque", "N·m", "lbf·in"],
    ["length", "mm", "in"],
    ["temperature", "°C", "°F"],
    ["mass", "kg", "lb"],
    ["resistance", "Ω", "Ω"],
  ])("%s is shown in %s or, US customary, %s", (quantity, metric, us) => {
    expect([displayUnit(quantity, "metric"), displayUnit(quantity, "us")]).toEqual([metric, us]);
  });

  test.each<readonly [number, Quantity, Unit]>([
    [5_000_000, "resistance", "MΩ"],
    [999_999, "resistance", "kΩ"],
    [1, "resistance", "Ω"],
    [0.999, "resistance", "mΩ"],
    [-0.00035, "resistance", "mΩ"],
    [0, "resistance", "Ω"],
    [0.03, "current", "mA"],
    [920, "current", "A"],
    [0.3, "duration", "ms"],
    [10, "torque", "N·m"],
  ])("%d SI of %s reads best in %s", (valueSi, quantity, unit) => {
    expect(readableUnit(valueSi, quantity, "metric")).toBe(unit);
  });

  test("changing the system changes the unit, not the quantity of what is shown", () => {
    for (const unit of UNIT_SYMBOLS.filter((symbol) => symbol !== "count")) {
      for (const system of UNIT_SYSTEMS) {
        const shown = parseQuantity(formatQuantity(100, unit, { system, resolution: 0.0001 }));
        if (!shown.ok || !shown.unit) throw new Error(`${unit} is not shown with a unit`);
        expect(shown.value).toBeCloseTo(convert(100, unit, shown.unit), 2);
      }
    }
  });
});
