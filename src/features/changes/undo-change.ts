import type { FirmTransaction } from "../../db/scope.ts";
import { notFound, Problem } from "../../errors.ts";
import { putBack } from "./put-back.ts";
import { shownChange } from "./shown.ts";
import {
  beginUndoing,
  type ChangeKind,
  type ChangeRow,
  changesAfter,
  findChange,
  lastChange,
  lockVersion,
} from "./store.ts";

export interface ChangeName {
  kind: ChangeKind;
  subjectId: string;
  id: string;
}

/**
 * Puts back what a change replaced, by the same rules as any edit, unless somebody has changed the
 * thing since. A version that moved without a change kept, such as by a swap of the unit, is none.
 */
export async function undoChange(
  tx: FirmTransaction,
  name: ChangeName,
  now: Date,
): Promise<ChangeRow> {
  const change = await findChange(tx, name);
  if (!change) throw notFound("change");
  const version = await lockVersion(tx, name.kind, name.subjectId);
  if (version === undefined) throw notFound(name.kind);
  const later = await changesAfter(tx, name);
  if (later.length > 0) throw changedSince(later);
  await beginUndoing(tx, change.id);
  await putBack(tx, { ...name, version, before: change.before as Record<string, unknown> }, now);
  const made = await lastChange(tx, name.subjectId);
  if (made?.undoesId !== change.id) throw new Error("the undoing left no change behind");
  return made;
}

function changedSince(later: readonly ChangeRow[]): Problem {
  const [last] = later;
  const who = last?.person?.name ?? "A program";
  const fields = Object.keys((last?.after ?? {}) as object).join(", ");
  const what = `${fields}, ${last?.at.toISOString()}`;
  return new Problem(
    "conflict",
    `${who} has changed it since (${what}). Look at what stands there now, and edit that.`,
    { changes: later.map((change) => shownChange(change, false)) },
  );
}
