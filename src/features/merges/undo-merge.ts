import type { FirmTransaction } from "../../db/scope.ts";
import { notFound, Problem } from "../../errors.ts";
import { changesSince } from "../changes/store.ts";
import { changeRecord } from "./fields-store.ts";
import { tellLedgers } from "./merge-records.ts";
import {
  beginMoving,
  changedSince,
  endMoving,
  findMerge,
  findMergeable,
  lockPair,
  type MergeKind,
  type MergeRow,
  type MovedPart,
  markUndone,
  moveReferences,
} from "./store.ts";

/** Puts everything back where it was, as long as nobody has built on the merge. */
export async function undoMerge(
  tx: FirmTransaction,
  mergeId: string,
  { personId, kind }: { personId: string; kind: MergeKind },
  now: Date,
): Promise<MergeRow> {
  const merge = await findMerge(tx, mergeId);
  if (merge?.kind !== kind) throw notFound("merge");
  const { fromId, intoId } = merge;
  await lockPair(tx, kind, [fromId, intoId]);
  const moved = merge.moved as unknown as MovedPart[];
  await refuseBuiltOn(tx, merge, moved);
  await beginMoving(tx, mergeId);
  await moveReferences(tx, { kind, fromId: intoId, intoId: fromId, only: moved });
  const emptied = Object.keys(merge.filled as object).map((field) => [field, null]);
  await changeRecord(tx, kind, intoId, Object.fromEntries(emptied));
  await changeRecord(tx, kind, fromId, { archivedAt: merge.wasArchivedAt, mergedIntoId: null });
  await endMoving(tx);
  const body = { mergeId, fromId, intoId };
  await tellLedgers(tx, moved, { kind: "site.merge-undone", body, at: now });
  return markUndone(tx, mergeId, { undoneAt: now, undoneById: personId });
}

async function refuseBuiltOn(
  tx: FirmTransaction,
  merge: MergeRow,
  moved: readonly MovedPart[],
): Promise<void> {
  if (merge.undoneAt) {
    throw new Problem("conflict", `${merge.undoneBy?.name} has undone this merge already.`);
  }
  const reasons = [
    ...(await editsSince(tx, merge)),
    ...(await changedSince(tx, merge.intoId, moved)).map(
      ({ name, changed }) => `${changed} of ${name.replaceAll("_", " ")} changed or moved on`,
    ),
  ];
  if (reasons.length === 0) return;
  throw new Problem(
    "conflict",
    `The merge cannot be undone any more: ${reasons.join("; ")}. Edit or move what is wrong.`,
    { reasons },
  );
}

/** Who changed either of the two records since; a change without a name moved the version alone. */
async function editsSince(tx: FirmTransaction, merge: MergeRow): Promise<string[]> {
  const kind = merge.kind as MergeKind;
  const pairs = [
    [merge.fromId, merge.fromVersion],
    [merge.intoId, merge.intoVersion],
  ] as const;
  const reasons: string[] = [];
  for (const [id, version] of pairs) {
    const row = await findMergeable(tx, kind, id);
    if (!row || row.version === version) continue;
    const [last] = await changesSince(tx, id, version ?? 0);
    reasons.push(`${last?.person?.name ?? "somebody"} changed ${row.reference}`);
  }
  return reasons;
}
