// Requirement: a typed reading is kept exactly as meant, with its unit and with "over range" or
// "under range" where the instrument said so, or it is refused with what to write instead.
// A full-width digit or sign (U+FF01–FF5E) has one plain twin and is read as that; digits of
// other scripts are refused. Minus may be "-", U+2212 or an en dash. Source: ISO 80000-1 7.3.

import { readNumber } from "./number-text.ts";
import { readFeetAndInches, readFraction } from "./tape-measure.ts";
import { readUnit } from "./unit-text.ts";
import { type Quantity, quantityOf, type Unit } from "./units.ts";

/** A reading: `value` is the double nearest to `decimalText`, both in `unit` as typed. */
export interface ParsedQuantity {
  ok: true;
  value: number;
  /** Plain decimal with the digits as typed: "-2.750". */
  decimalText: string;
  /** The canonical unit, or undefined when none was typed. */
  unit: Unit | undefined;
  /** ">" for a reading beyond the top of the range (">999 MΩ"), "<" for one below the bottom. */
  qualifier?: ">" | "<";
}

export interface ParseOptions {
  /** What is asked for: units of anything else are refused, ambiguous ones settled. */
  quantity?: Quantity;
}

type Refusal = { ok: false; problem: string };
type NumberAndRest = { ok: true; decimalText: string; rest: string; unit?: Unit } | Refusal;

const LENGTH_LIMIT = 40;
const VULGAR = {
  "½": "1/2",
  "¼": "1/4",
  "¾": "3/4",
  "⅛": "1/8",
  "⅜": "3/8",
  "⅝": "5/8",
  "⅞": "7/8",
};
const NUMBER = /^((?:[\d.,]|[\u00A0\u202F\u2009](?=\d))+)(?:[eE]([+-]?\d{1,9})(?!\d))?/;

/** Reads "2.75 Nm", "1,5 MΩ", ">999 MΩ", `12'6"`, "−5 °C". At most 40 characters. */
export function parseQuantity(text: string, options: ParseOptions = {}): ParsedQuantity | Refusal {
  const trimmed = text.trim();
  if (trimmed === "") return refuse("There is no number: type the reading and its unit.");
  if (trimmed.length > LENGTH_LIMIT) {
    return refuse(`A reading has at most ${LENGTH_LIMIT} characters: type only number and unit.`);
  }
  const [, mark, sign = "", body = ""] = /^([<>])?\s*([+-])?\s*(.*)$/su.exec(plain(trimmed)) ?? [];
  const number = readLeadingNumber(body);
  if (!number.ok) return number;
  const unit = unitOf(number, options.quantity);
  if (!unit.ok) return unit;
  const isZero = !/[1-9]/.test(number.decimalText);
  const decimalText = sign === "-" && !isZero ? `-${number.decimalText}` : number.decimalText;
  const reading = { ok: true as const, value: Number(decimalText), decimalText, unit: unit.unit };
  return mark === ">" || mark === "<" ? { ...reading, qualifier: mark } : reading;
}

function refuse(problem: string): Refusal {
  return { ok: false, problem };
}

/** One character for each sign; "1½" becomes "1 1/2". */
function plain(text: string): string {
  return text
    .replace(/[\uFF01-\uFF5E]/g, (wide) => String.fromCharCode(wide.charCodeAt(0) - 0xfee0))
    .replace(/\u3000/g, " ")
    .replace(/[\u2212\u2013]/g, "-")
    .replace(/[″“”]/g, '"')
    .replace(/[′‘’]/g, "'")
    .replace(/[½¼¾⅛⅜⅝⅞]/g, (sign) => ` ${VULGAR[sign as keyof typeof VULGAR]}`)
    .trim();
}

function readLeadingNumber(body: string): NumberAndRest {
  const feetAndInches = readFeetAndInches(body);
  if (feetAndInches) return feetAndInches.ok ? { ...feetAndInches, unit: "in" } : feetAndInches;
  const fraction = readFraction(body.trimStart());
  if (fraction) return fraction;
  const match = NUMBER.exec(body);
  if (!match) return refuse(notANumber(body));
  const number = readNumber(match[1] ?? "", Number(match[2] ?? "0"));
  return number.ok ? { ...number, rest: body.slice(match[0].length) } : number;
}

function notANumber(body: string): string {
  if (/^o\.?\s?l\b/i.test(body)) {
    return `"${body}" is an over-range display: write > and the top of the range, such as >999 MΩ.`;
  }
  return `"${body}" does not start with a number: type the digits first, such as 2.75 N·m.`;
}

function unitOf(
  number: Extract<NumberAndRest, { ok: true }>,
  quantity: Quantity | undefined,
): { ok: true; unit: Unit | undefined } | Refusal {
  const rest = number.rest.trim();
  if (rest === "" && !number.unit) return { ok: true, unit: undefined };
  if (/^[\d.,+/]|^-\s?\d/.test(rest)) {
    return refuse(`"${rest}" is a second number: type one reading at a time, without spaces.`);
  }
  const reading = number.unit ? { ok: true as const, unit: number.unit } : readUnit(rest, quantity);
  if (!reading.ok) return reading;
  const measured = quantityOf(reading.unit);
  if (quantity && measured !== quantity) {
    return refuse(`${reading.unit} is a unit of ${measured}; what is asked for is ${quantity}.`);
  }
  return reading;
}
