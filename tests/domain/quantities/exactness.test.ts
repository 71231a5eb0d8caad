import fc from "fast-check";
import { expect, test } from "vitest";
import { convert, convertDecimal } from "../../../src/domain/quantities/convert.ts";
import { exactFromText, roundedDecimal } from "../../../src/domain/quantities/decimal-text.ts";
import { nearestDouble } from "../../../src/domain/quantities/nearest-double.ts";
import { isSame, rational } from "../../../src/domain/quantities/rational.ts";
import { quantityOf, UNIT_SYMBOLS, type Unit } from "../../../src/domain/quantities/units.ts";

/** 100,000 in the ordinary run; ROUND_TRIP_VALUES=1000000 for the long one. */
const ROUND_TRIP_VALUES = Number(process.env.ROUND_TRIP_VALUES ?? "100000");

const unit = fc.constantFrom(...UNIT_SYMBOLS);
const unitPair = unit.chain((from) =>
  fc.tuple(
    fc.constant(from),
    fc.constantFrom(...UNIT_SYMBOLS.filter((to) => quantityOf(to) === quantityOf(from))),
  ),
);

/** A linear congruential generator (Numerical Recipes' constants): the same values every run. */
function sequence(seed: number): () => number {
  let state = seed;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state;
  };
}

/** The exact value of a double from its bits (IEEE 754-2019 3.4), independent of its text. */
function exactBits(value: number): { numerator: bigint; denominator: bigint } {
  const view = new DataView(new ArrayBuffer(8));
  view.setFloat64(0, value);
  const bits = view.getBigUint64(0);
  const power = Number((bits >> 52n) & 0x7ffn);
  const significand = (bits & 0xfffffffffffffn) + (power === 0 ? 0n : 1n << 52n);
  const exponent = Math.max(power, 1) - 1075;
  const size = bits >> 63n === 1n ? -significand : significand;
  return exponent >= 0
    ? { numerator: size << BigInt(exponent), denominator: 1n }
    : { numerator: size, denominator: 1n << BigInt(-exponent) };
}

function neighbour(value: number, step: 1n | -1n): number {
  const view = new DataView(new ArrayBuffer(8));
  view.setFloat64(0, value);
  view.setBigUint64(0, view.getBigUint64(0) + step);
  return view.getFloat64(0);
}

function distance(a: { numerator: bigint; denominator: bigint }, value: number) {
  const b = exactBits(value);
  const difference = a.numerator * b.denominator - b.numerator * a.denominator;
  return rational(difference < 0n ? -difference : difference, a.denominator * b.denominator);
}

function isCloserOrEqual(a: ReturnType<typeof distance>, b: ReturnType<typeof distance>): boolean {
  return a.numerator * b.denominator <= b.numerator * a.denominator;
}

test(`a → b → a gives back the same decimal, ${ROUND_TRIP_VALUES} values, all unit pairs`, () => {
  const pairs: [Unit, Unit][] = UNIT_SYMBOLS.flatMap((from) =>
    UNIT_SYMBOLS.filter((to) => to !== from && quantityOf(to) === quantityOf(from)).map(
      (to): [Unit, Unit] => [from, to],
    ),
  );
  const next = sequence(20260101);
  let unequal = 0;
  for (let count = 0; count < ROUND_TRIP_VALUES; count += 1) {
    const [from, to] = pairs[next() % pairs.length] ?? ["V", "mV"];
    const digits = String((next() % 9_999_999) + 1);
    const text = `${next() % 2 ? "-" : ""}${next() % 100_000}.${digits.replace(/0+$/, "")}`;
    const there = convertDecimal(text, from, to);
    const back = there.ok ? convertDecimal(there.text, to, from) : there;
    if (!back.ok || back.text !== text || back.value !== Number(text)) unequal += 1;
  }
  expect(unequal).toBe(0);
}, 600_000);

test("convert gives the double nearest to the exact result: no neighbour lies closer", () => {
  fc.assert(
    fc.property(
      unitPair,
      fc.double({ noNaN: true, min: -1e12, max: 1e12 }),
      ([from, to], value) => {
        const exact = convertDecimal(String(value), from, to);
        const result = convert(value, from, to);
        if (!exact.ok) throw new Error(exact.problem);
        if (result === 0) return isSame(exact.exact, rational(0n)) || Math.abs(value) < 1e-300;
        const own = distance(exact.exact, result);
        return (
          isCloserOrEqual(own, distance(exact.exact, neighbour(result, 1n))) &&
          isCloserOrEqual(own, distance(exact.exact, neighbour(result, -1n)))
        );
      },
    ),
    { numRuns: 3000 },
  );
});

test("nearestDouble agrees with the engine's own reading of decimal text (ECMA-262)", () => {
  const decimal = fc
    .tuple(fc.bigInt({ min: -(10n ** 19n), max: 10n ** 19n }), fc.integer({ min: -345, max: 310 }))
    .map(([digits, power]) => `${digits}e${power}`);
  fc.assert(
    fc.property(decimal, (text) => {
      const exact = exactFromText(text);
      return exact !== undefined && Object.is(nearestDouble(exact), Number(text) + 0);
    }),
    { numRuns: 5000 },
  );
});

test.each<readonly [string, bigint, bigint, number]>([
  ["a tie above 2^53 goes to the even neighbour", 2n ** 53n + 1n, 1n, 2 ** 53],
  ["the next tie goes up to the even neighbour", 2n ** 53n + 3n, 1n, 2 ** 53 + 4],
  [
    "a tie with a trace above it goes up",
    (2n ** 53n + 1n) * 2n ** 200n + 1n,
    2n ** 200n,
    2 ** 53 + 2,
  ],
  ["half the smallest step goes to zero", 1n, 2n ** 1075n, 0],
  ["just above half the smallest step stays", 2n ** 60n + 1n, 2n ** 1135n, 5e-324],
  ["three halves of the smallest step go to two steps", 3n, 2n ** 1075n, 1e-323],
  ["the largest double stays", (2n ** 53n - 1n) * 2n ** 971n, 1n, Number.MAX_VALUE],
  ["half a step beyond the largest double overflows", (2n ** 54n - 1n) * 2n ** 970n, 1n, Infinity],
  ["just below that does not", (2n ** 54n - 1n) * 2n ** 970n - 1n, 1n, Number.MAX_VALUE],
  ["one third is one third", 1n, 3n, 1 / 3],
  ["minus two thirds is minus two thirds", -2n, 3n, -2 / 3],
  ["the smallest normal double stays", 1n, 2n ** 1022n, 2.2250738585072014e-308],
])("%s (IEEE 754-2019 4.3.1)", (_rule, numerator, denominator, expected) => {
  expect(nearestDouble(rational(numerator, denominator))).toBe(expected);
});

// Two roundings of half a step, and two of up to half a step between a double and its shortest
// text; a step measured at 1.99… is twice one measured at 1.0, hence three steps.
test("a double converted there and back stays within three steps of itself", () => {
  fc.assert(
    fc.property(
      unitPair.filter(([from]) => quantityOf(from) !== "temperature"),
      fc.double({ noNaN: true, min: 1e-6, max: 1e9 }),
      ([from, to], value) => {
        const back = convert(convert(value, from, to), to, from);
        return Math.abs(back - value) <= 3 * 2 ** -52 * value;
      },
    ),
    { numRuns: 2000 },
  );
});

test.each([
  ["0.125", 2, "0.13"],
  ["-0.125", 2, "-0.13"],
  ["1.005", 2, "1.01"],
  ["-0.004", 2, "0.00"],
  ["2.5", 0, "3"],
  ["0", 3, "0.000"],
  ["1/3", 4, "0.3333"],
])("%s to %d decimals is %s: halves away from zero", (text, decimals, expected) => {
  const exact = exactFromText(text);
  expect(exact && roundedDecimal(exact, decimals)).toBe(expected);
});
