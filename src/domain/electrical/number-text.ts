// The working must be checkable by hand, so numbers are written as a calculator takes them.

/**
 * Drops the noise of binary arithmetic (0.8 × 230 × 0.95 / 160 gives 1.0924999999999998)
 * by keeping twelve digits: far finer than any instrument, and a reading of exactly the
 * limit then meets it.
 */
export function settled(value: number): number {
  return Number(value.toPrecision(12));
}

/** A number to at most six significant digits, without an exponent where it can be avoided. */
export function shown(value: number): string {
  const rounded = Number(value.toPrecision(6));
  return String(rounded).replace("-", "−");
}

function operand(value: number): string {
  return value < 0 ? `(${shown(value)})` : shown(value);
}

/** Template tag: writes a formula with its numbers shown, negative ones in brackets. */
export function filled(text: TemplateStringsArray, ...values: readonly number[]): string {
  return text.reduce((line, part, index) => {
    const value = values[index - 1];
    return line + (value === undefined ? "" : operand(value)) + part;
  }, "");
}
