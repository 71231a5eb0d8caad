import { describe, expect, it } from "vitest";
import {
  BOUNDS,
  type Bound,
  outside,
  type Quantity,
} from "../../../src/domain/electrical/bounds.ts";
import { numberField } from "../../../src/domain/electrical/fields.ts";

const QUANTITIES = Object.entries(BOUNDS) as [Quantity, Bound][];

describe("the range of a quantity", () => {
  it.each(QUANTITIES)(
    "%s holds both its ends, in the check and in the input field",
    (name, bound) => {
      const field = numberField(name, "Some meaning");
      for (const value of [bound.min, bound.max]) {
        expect(outside({ [name]: value })).toBeUndefined();
        expect(field.safeParse(value).success).toBe(true);
      }
    },
  );

  it.each(QUANTITIES)("%s holds nothing beyond its ends", (name, bound) => {
    const field = numberField(name, "Some meaning");
    const step = bound.whole ? 1 : 1e-9 * Math.max(1, Math.abs(bound.max));
    const beyond = [bound.min - step, bound.max + step, Number.NaN, Number.POSITIVE_INFINITY];
    for (const value of bound.whole ? [...beyond, bound.min + 0.5] : beyond) {
      expect(outside({ [name]: value })).toMatchObject({ ok: false, reason: "bad-input" });
      expect(field.safeParse(value).success).toBe(false);
    }
  });

  it("ends at low voltage, 1500 V DC (IEC 60364-1, from memory)", () => {
    expect(BOUNDS.voltageV.max).toBe(1500);
    expect(BOUNDS.signedVoltageV).toMatchObject({ min: -1500, max: 1500 });
  });

  it("of breaker ratings ends at 125 A (IEC 60898-1, from memory)", () => {
    expect(BOUNDS.ratingA.max).toBe(125);
  });

  it("is named in the refusal, with its unit and the way out", () => {
    const refusal = outside({ voltageV: 2300 });
    expect(refusal?.problem).toBe(
      "The voltage 2300 is not from 0.000001 to 1500 V; check the number and its unit.",
    );
  });
});
