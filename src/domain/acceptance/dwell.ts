// Requirement: some tests wait until the installation has settled, or are made while something
// still holds (capacitors discharged, a battery rested): so long after another item was met, at
// least or at most, the boundary itself included. Common practice, no source.
import type { CompiledItem } from "../plan/compile.ts";
import type { ItemKind, ItemOf } from "../plan/item.ts";
import type { Subject } from "../plan/subjects.ts";
import type { Obstacle } from "./obstacle.ts";

type Dwell = NonNullable<ItemOf<ItemKind>["dwell"]>;

/** When an item was met for a subject, in milliseconds since 1970 in UTC. */
export interface MetAt {
  subject: Subject;
  atMs: number;
}

/**
 * Whether it is too soon or too late after another item was met. Instants are compared, so clocks
 * put forward or back in between change nothing. Of several subjects the last must lie far enough
 * back and the first not too far. An item that was not asked, or was released without an answer,
 * gives nothing to count from.
 * @param needed the item from whose meeting the time counts
 * @param takenMs when the waiting item is done, in milliseconds since 1970 in UTC
 */
export function dwellObstacle(
  { atLeastS, atMostS = Number.POSITIVE_INFINITY }: Dwell,
  needed: CompiledItem,
  met: readonly MetAt[],
  takenMs: number,
): Obstacle | undefined {
  const [any] = met;
  if (!any) return undefined;
  const first = met.reduce((least, next) => (next.atMs < least.atMs ? next : least), any);
  const last = met.reduce((most, next) => (next.atMs > most.atMs ? next : most), any);
  const told = ({ subject, atMs }: MetAt, limitS: number) => ({
    ...{ needed, subject, elapsedMs: takenMs - atMs },
    ...{ limitMs: limitS * 1000, limitAtMs: atMs + limitS * 1000 },
  });
  if (takenMs > first.atMs + atMostS * 1000) return { kind: "too-late", ...told(first, atMostS) };
  if (takenMs < last.atMs + atLeastS * 1000) return { kind: "too-soon", ...told(last, atLeastS) };
  return undefined;
}
