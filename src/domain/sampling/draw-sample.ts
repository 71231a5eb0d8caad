// Requirement: nobody can choose the sample, and anybody can draw it again. Each name of the lot
// is ranked by the SHA-256 of "seed:name"; the sample is the lowest ranks. On any machine:
//   while read -r n; do printf '%s:%s' "$SEED" "$n" | sha256sum | sed "s/-$/$n/"; done < lot |
//     LC_ALL=C sort | head -n "$SIZE"
// Source: product rule; SHA-256 after FIPS 180-4.
import { sha256HexSync, utf8 } from "../evidence/sha256.ts";

export const SEED_PATTERN = /^[A-Za-z0-9-]{4,40}$/;

/** The drawn ones in the order of their ranks; all of them where the lot is no larger. */
export function drawSample<Thing>(
  lot: readonly Thing[],
  { seed, size, nameOf }: { seed: string; size: number; nameOf: (thing: Thing) => string },
): Thing[] {
  return lot
    .map((thing) => ({ thing, rank: sha256HexSync(utf8(`${seed}:${nameOf(thing)}`)) }))
    .sort((left, right) => (left.rank < right.rank ? -1 : 1))
    .slice(0, size)
    .map(({ thing }) => thing);
}
