import type { FirmTransaction } from "../../db/scope.ts";
import { editPlanDocument, type PlanEdit } from "../../domain/plan/edit.ts";
import { Problem } from "../../errors.ts";
import { PlanDocument } from "../plans/document.ts";
import { documentOf, readVersion, replaceDocument } from "../plans/keep-plan.ts";

type Place = { planId: string; number: number };

/** One edit of a draft that nobody changed meanwhile; gives back the item's id by now. */
export async function changeDraft(
  tx: FirmTransaction,
  place: Place,
  version: number,
  edit: PlanEdit,
): Promise<string | undefined> {
  const row = await readVersion(tx, place);
  const edited = editPlanDocument(documentOf(row), edit);
  if (!edited.ok) throw refusal(edited.problem);
  const kept = PlanDocument.safeParse(edited.document);
  if (!kept.success) throw refusal(kept.error.issues[0]?.message ?? "The document is too large.");
  await replaceDocument(tx, place, version, kept.data);
  return edited.itemId;
}

/** Puts back what the draft said before its last change; a second time it is the change again. */
export async function undoEdit(tx: FirmTransaction, place: Place, version: number): Promise<void> {
  const row = await readVersion(tx, place);
  if (row.previousDocument === null) throw refusal("There is no change to take back.");
  await replaceDocument(tx, place, version, row.previousDocument as Record<string, unknown>);
}

const refusal = (sentence: string): Problem => new Problem("conflict", sentence);
