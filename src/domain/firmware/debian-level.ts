// Requirement: a maker's own scheme still has a documented order. Source: Debian Policy 5.6.12,
// [epoch:]upstream[-revision], a total order for any mix of letters and numbers in which `~` marks
// what comes before a release (1.0~rc1 is below 1.0).

/** `revision` is empty where none is written, which the policy equates with 0. */
export type DebianLevel = { epoch: bigint; upstream: string; revision: string };

const ALLOWED = /^[A-Za-z0-9.+~:-]+$/;

/**
 * Reads a level under Debian Policy 5.6.12. The policy asks that the upstream part *should* begin
 * with a digit; makers write V2.1 too, so a digit anywhere is enough here, and a text without any
 * (such as "latest") is refused because it orders nothing.
 */
export function parseDebian(
  text: string,
): { ok: true; value: DebianLevel } | { ok: false; problem: string } {
  const refuse = (why: string) => ({
    ok: false as const,
    problem: `"${text}" is no level: ${why}.`,
  });
  if (!ALLOWED.test(text)) return refuse("it holds letters, digits and . + ~ - : only");
  const colon = text.indexOf(":");
  const epoch = colon < 0 ? "0" : text.slice(0, colon);
  if (!/^\d+$/.test(epoch)) return refuse("what stands before the colon is a whole number");
  const rest = text.slice(colon + 1);
  const hyphen = rest.lastIndexOf("-");
  const upstream = hyphen < 0 ? rest : rest.slice(0, hyphen);
  const revision = hyphen < 0 ? "" : rest.slice(hyphen + 1);
  if (!/\d/.test(upstream)) return refuse("its main part holds at least one digit");
  if (hyphen >= 0 && revision === "") return refuse("a revision follows the last hyphen");
  if (revision.includes(":")) return refuse("a revision holds no colon");
  return { ok: true, value: { epoch: BigInt(epoch), upstream, revision } };
}

/** Debian Policy 5.6.12: epochs as numbers, then the upstream parts, then the revisions. */
export function compareDebian(a: DebianLevel, b: DebianLevel): -1 | 0 | 1 {
  if (a.epoch !== b.epoch) return a.epoch < b.epoch ? -1 : 1;
  return compareDebianPart(a.upstream, b.upstream) || compareDebianPart(a.revision, b.revision);
}

/**
 * The policy's comparison of one part: from the left, a run of non-digits by modified character
 * order (`~` before the end, the end before letters, letters before the rest), then a run of digits
 * as a number, in turn until they differ or both end.
 */
export function compareDebianPart(a: string, b: string): -1 | 0 | 1 {
  const left = runs(a);
  const right = runs(b);
  for (let index = 0; index < Math.max(left.length, right.length); index += 1) {
    const first = left[index] ?? EMPTY_RUN;
    const second = right[index] ?? EMPTY_RUN;
    const order = compareSigns(first.signs, second.signs);
    if (order !== 0) return order;
    if (first.number !== second.number) return first.number < second.number ? -1 : 1;
  }
  return 0;
}

const EMPTY_RUN = { signs: "", number: 0n };

function runs(part: string): { signs: string; number: bigint }[] {
  return [...part.matchAll(/(\D*)(\d*)/g)].map(([, signs = "", digits = ""]) => ({
    signs,
    number: BigInt(digits || "0"),
  }));
}

function compareSigns(a: string, b: string): -1 | 0 | 1 {
  for (let index = 0; index < Math.max(a.length, b.length); index += 1) {
    const difference = weight(a[index]) - weight(b[index]);
    if (difference !== 0) return difference < 0 ? -1 : 1;
  }
  return 0;
}

function weight(sign: string | undefined): number {
  if (sign === undefined) return 0;
  if (sign === "~") return -1;
  const code = sign.charCodeAt(0);
  return /[A-Za-z]/.test(sign) ? code : code + 256;
}
