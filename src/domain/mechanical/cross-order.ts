// Order around a circle: crosswise, so that the joint closes evenly. For 4 to 24 fasteners in
// fours it is the cross pattern of ASME PCC-1 (from memory); the star for five and the X for four
// are also seen in secondary pages. Other counts go on the same idea: common practice, no source.

const PCC_1 = "ASME PCC-1, cross pattern (from memory)";
const PRACTICE = "common practice, no source";

/** First number of each group of four, by count of fasteners. */
const FIRST_OF_FOUR: Readonly<Record<number, readonly number[]>> = {
  4: [1],
  8: [1, 2],
  12: [1, 2, 3],
  16: [1, 3, 2, 4],
  20: [1, 3, 5, 2, 4],
  24: [1, 4, 2, 5, 3, 6],
};

/**
 * Crosswise order of `count` fasteners numbered round a circle from 1.
 * @returns every number once, and where the order comes from.
 */
export function crossOrder(count: number): { order: number[]; source: string } {
  const printed = FIRST_OF_FOUR[count];
  if (printed) return { order: printed.flatMap((first) => fourFrom(first, count)), source: PCC_1 };
  if (count % 4 === 0) {
    const firsts = strided(count / 4);
    return { order: firsts.flatMap((first) => fourFrom(first, count)), source: PRACTICE };
  }
  if (count % 2 === 0) {
    const half = count / 2;
    return { order: strided(half).flatMap((first) => [first, first + half]), source: PRACTICE };
  }
  // For an odd count (n − 1)/2 shares no divisor with n, so the stride meets every number.
  const stride = Math.max(1, (count - 1) / 2);
  const order = Array.from({ length: count }, (_, at) => ((at * stride) % count) + 1);
  return { order, source: PRACTICE };
}

function fourFrom(first: number, count: number): number[] {
  const quarter = count / 4;
  return [first, first + 2 * quarter, first + quarter, first + 3 * quarter];
}

/** 1 to `count` with neighbours kept apart: odd numbers first, then even. */
function strided(count: number): number[] {
  const numbers = Array.from({ length: count }, (_, at) => at + 1);
  return [...numbers.filter((one) => one % 2 === 1), ...numbers.filter((one) => one % 2 === 0)];
}
