// Requirement: a reading is kept with the unit it was typed in and judged in the unit of its item;
// the conversion is exact, so that which unit was typed never decides a verdict. At most 15 digits
// are taken: so many decimal digits always survive in a double (IEEE 754-2019 5.12.2), so comparing
// doubles compares what was typed.
import { convert } from "../quantities/convert.ts";
import { parseQuantity } from "../quantities/parse-quantity.ts";
import { unitFromText } from "../quantities/unit-text.ts";
import { isUnit, quantityOf, type Unit } from "../quantities/units.ts";

/** A number as read: in the item's unit, with the unit and text it was typed in. */
export interface Measured {
  /** In the unit the item asks for. */
  number: number;
  /** "12.5 kΩ" as typed, for the record. */
  typed: string;
  /** ">" when the instrument showed more than its range, "<" less. */
  qualifier?: ">" | "<";
}

export type MeasuredReading =
  | { ok: true; measured: Measured }
  | { ok: false /** JSON pointer from the holder. */; pointer: string; problem: string };

const LARGEST = 1e15;
const DIGITS_MOST = 15;

/**
 * Reads number and unit, and converts exactly into the item's unit.
 * @param number a number, or a text such as "2.75" or ">999"
 * @param unit a unit as people write it, of the quantity of `itemUnit`
 */
export function readMeasured(itemUnit: string, number: unknown, unit: unknown): MeasuredReading {
  if (typeof number === "number" && unit === itemUnit && Math.abs(number) <= LARGEST) {
    const plain = number + 0;
    return { ok: true, measured: { number: plain, typed: `${plain} ${unit}` } };
  }
  if (typeof unit !== "string") return refuse("/unit", `Name the unit, such as ${itemUnit}.`);
  const symbol = isUnit(unit) ? unit : unitFromText(unit);
  if (symbol === undefined) {
    const problem = `"${unit.slice(0, 20)}" is no unit; this is read in ${itemUnit}.`;
    return refuse("/unit", problem);
  }
  if (!isUnit(itemUnit) || quantityOf(symbol) !== quantityOf(itemUnit)) {
    const problem = `${symbol} does not measure this; it is read in ${itemUnit} or a unit like it.`;
    return refuse("/unit", problem);
  }
  if (typeof number !== "string" && typeof number !== "number") {
    return refuse("/number", "Give the reading as a number, such as 2.75.");
  }
  return readTyped(String(number), symbol, itemUnit);
}

function readTyped(text: string, symbol: Unit, itemUnit: Unit): MeasuredReading {
  const parsed = parseQuantity(text, { quantity: quantityOf(itemUnit) });
  if (!parsed.ok) return refuse("/number", parsed.problem);
  if (parsed.unit !== undefined && parsed.unit !== symbol) {
    const problem = `The number says ${parsed.unit} and the unit says ${symbol}; give one of them.`;
    return refuse("/number", problem);
  }
  if (parsed.decimalText.replace(/\D/g, "").replace(/^0+/, "").length > DIGITS_MOST) {
    return refuse("/number", `A reading has at most ${DIGITS_MOST} digits.`);
  }
  const typed = `${parsed.qualifier ?? ""}${parsed.decimalText} ${symbol}`;
  const measured: Measured = { number: convert(parsed.value, symbol, itemUnit), typed };
  if (parsed.qualifier) measured.qualifier = parsed.qualifier;
  return { ok: true, measured };
}

const refuse = (pointer: string, problem: string): MeasuredReading => ({
  ok: false,
  pointer,
  problem,
});
