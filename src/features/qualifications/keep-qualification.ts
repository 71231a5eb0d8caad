import type { FirmTransaction } from "../../db/scope.ts";
import { invalid, notFound, Problem } from "../../errors.ts";
import { editedMeanwhile } from "../../web/etag.ts";
import { findPerson } from "../people/store.ts";
import { editKind, findKind, isKindNameTaken, type KindRow } from "./kind-store.ts";
import { addRequirement, type RequirementRow } from "./requirement-store.ts";
import type {
  NewQualification,
  NewRequirement,
  QualificationEdit,
  QualificationKindEdit,
} from "./schemas.ts";
import {
  addQualification,
  dayText,
  editQualification,
  findQualification,
  putQualificationBack,
  type QualificationRow,
} from "./store.ts";

export async function readKind(tx: FirmTransaction, id: string): Promise<KindRow> {
  const row = await findKind(tx, id);
  if (!row) throw notFound("kind of qualification");
  return row;
}

export async function changeKind(
  tx: FirmTransaction,
  id: string,
  version: number,
  { archived, ...change }: QualificationKindEdit,
  now: Date,
): Promise<KindRow> {
  const before = await readKind(tx, id);
  const { name } = change;
  if (name !== undefined && (await isKindNameTaken(tx, name, id))) throw kindNameTaken(name);
  const archivedAt = archived === undefined ? before.archivedAt : archived ? now : null;
  if (!(await editKind(tx, id, version, { ...change, archivedAt }))) throw editedMeanwhile();
  return readKind(tx, id);
}

export const kindNameTaken = (name: string): Problem =>
  new Problem("conflict", `There is a qualification named ${name} already. Choose another name.`);

export async function readQualification(
  tx: FirmTransaction,
  id: string,
): Promise<QualificationRow> {
  const row = await findQualification(tx, id);
  if (!row) throw notFound("qualification");
  return row;
}

export async function recordQualification(
  tx: FirmTransaction,
  fields: NewQualification,
): Promise<QualificationRow> {
  await requirePerson(tx, fields.personId);
  await requireKind(tx, fields.kindId);
  return readQualification(tx, await addQualification(tx, fields));
}

/** Undoes a removal; asked a second time, it changes nothing. */
export async function restoreQualification(
  tx: FirmTransaction,
  fields: NewQualification & { id: string },
): Promise<void> {
  await requirePerson(tx, fields.personId);
  if (!(await findKind(tx, fields.kindId))) throw noSuchKind();
  await putQualificationBack(tx, fields);
}

export async function changeQualification(
  tx: FirmTransaction,
  id: string,
  version: number,
  change: QualificationEdit,
): Promise<QualificationRow> {
  const before = await readQualification(tx, id);
  const from = change.validFrom ?? dayText(before.validFrom);
  const to =
    change.validTo === undefined ? before.validTo && dayText(before.validTo) : change.validTo;
  if (to !== null && to < from) throw invalid("/body/validTo", "must not lie before validFrom");
  if (!(await editQualification(tx, id, version, change))) throw editedMeanwhile();
  return readQualification(tx, id);
}

export async function askFor(tx: FirmTransaction, fields: NewRequirement): Promise<RequirementRow> {
  const kind = await requireKind(tx, fields.kindId);
  const row = await addRequirement(tx, fields);
  if (row) return row;
  throw new Problem(
    "conflict",
    `Jobs of the kind ${fields.jobKind} ask for ${kind.name} already. Remove that first.`,
  );
}

async function requirePerson(tx: FirmTransaction, id: string): Promise<void> {
  if (await findPerson(tx, id)) return;
  throw invalid("/body/personId", "There is no such person in your firm.");
}

const noSuchKind = (): Problem =>
  invalid("/body/kindId", "There is no such kind of qualification in your firm.");

async function requireKind(tx: FirmTransaction, id: string): Promise<KindRow> {
  const kind = await findKind(tx, id);
  if (!kind) throw noSuchKind();
  if (!kind.archivedAt) return kind;
  throw invalid("/body/kindId", `${kind.name} is archived: bring it back first.`);
}
