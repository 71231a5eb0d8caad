// Each kind of thing goes back through the door that its edits come through, so that a rule that
// refuses an edit refuses its undoing too.
import type { FirmTransaction } from "../../db/scope.ts";
import { notFound } from "../../errors.ts";
import { editedMeanwhile } from "../../web/etag.ts";
import { changeCustomer } from "../customers/edit-customer.ts";
import { changeInstrument } from "../instruments/keep-instrument.ts";
import { editPersonSafely } from "../people/edit-person.ts";
import { changeSite } from "../sites/edit-site.ts";
import { editUnit, findUnit } from "../units/store.ts";
import { fieldName } from "./shown.ts";
import type { ChangeKind } from "./store.ts";

export interface PutBack {
  kind: ChangeKind;
  subjectId: string;
  version: number;
  /** Columns with the values they had. */
  before: Readonly<Record<string, unknown>>;
}

type Fields = Record<string, unknown>;
type Door = (
  tx: FirmTransaction,
  of: { id: string; version: number; fields: Fields },
  now: Date,
) => Promise<unknown>;

const DOORS: Readonly<Record<ChangeKind, Door>> = {
  customer: (tx, { id, version, fields }, now) => changeCustomer(tx, id, version, fields, now),
  site: (tx, { id, version, fields }, now) => changeSite(tx, id, version, fields, now),
  unit: async (tx, { id, version, fields }) => {
    if (!(await findUnit(tx, id))) throw notFound("unit");
    if (!(await editUnit(tx, id, version, fields))) throw editedMeanwhile();
  },
  instrument: (tx, { id, version, fields }) => changeInstrument(tx, id, version, fields),
  person: (tx, { id, version, fields }, now) =>
    editPersonSafely(tx, id, { version, ...fields }, now),
};

export async function putBack(tx: FirmTransaction, what: PutBack, now: Date): Promise<void> {
  const { kind, subjectId: id, version } = what;
  const fields = Object.fromEntries(Object.entries(what.before).map(fieldOf));
  await DOORS[kind](tx, { id, version, fields }, now);
}

/** A column's value as the field that an edit takes: whether, not when, something was archived. */
function fieldOf([column, value]: [string, unknown]): [string, unknown] {
  if (column === "archived_at") return ["archived", value !== null];
  return [fieldName(column), value];
}
