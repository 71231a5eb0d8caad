// Requirement: levels of one to four whole numbers with dots order number by number. Common
// practice of makers, no source. A number that is not written counts as zero, so 1.2 and 1.2.0 are
// one level; numbers are whole, so 1.10 is above 1.9 and 1.02 is 1.2.

export type DottedLevel = readonly [bigint, bigint, bigint, bigint];

const SHAPE = /^[vV]?(\d+)(?:\.(\d+))?(?:\.(\d+))?(?:\.(\d+))?$/;

/** Reads one to four whole numbers with dots between and at most a v before; refuses the rest. */
export function parseDotted(
  text: string,
): { ok: true; value: DottedLevel } | { ok: false; problem: string } {
  const match = SHAPE.exec(text);
  if (!match) {
    const problem = `"${text}" is no dotted level: it reads like 1.4, v2.0.7 or 1.4.2.118.`;
    return { ok: false, problem };
  }
  const [, first = "0", second = "0", third = "0", fourth = "0"] = match;
  return { ok: true, value: [BigInt(first), BigInt(second), BigInt(third), BigInt(fourth)] };
}

/** Orders number by number from the left; common practice, no source. */
export function compareDotted(a: DottedLevel, b: DottedLevel): -1 | 0 | 1 {
  for (const part of [0, 1, 2, 3] as const) {
    if (a[part] !== b[part]) return a[part] < b[part] ? -1 : 1;
  }
  return 0;
}
