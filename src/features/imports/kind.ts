// What the five kinds of table have in common: fields, how a row is read, and how rows become new
// and changed things.
import type { z } from "zod";
import type { FirmTransaction } from "../../db/scope.ts";
import type { CellKind } from "../../domain/tables/read-cell.ts";

export interface ImportField {
  name: string;
  cell: CellKind;
  /** Names of columns that are taken for it, in English and Spanish. */
  words: readonly string[];
  /** key: in every row; new: in rows of things that are not there yet. */
  requirement?: "key" | "new";
}

export type Values = Readonly<Record<string, unknown>>;

export type RowReading =
  | { ok: true; fields: Record<string, unknown>; naturalKey: string | null }
  | { ok: false; field: string; detail: string };

export interface ImportContext {
  importId: string;
  personId: string;
  now: Date;
  /** Tells how many rows are done so far; throws when the import was given up meanwhile. */
  beat(done: number): Promise<void>;
}

export interface ImportKind {
  fields: readonly ImportField[];
  /** Reads what all rows need, once, and answers with what reads a row. */
  open(tx: FirmTransaction, now: Date): Promise<(values: Values) => RowReading>;
  /** Says of every row that is not bad whether it is new, changed, unchanged or bad, and why. */
  judge(tx: FirmTransaction, context: ImportContext): Promise<void>;
  /** Does what was judged; answers with figures of its own. */
  apply(tx: FirmTransaction, context: ImportContext): Promise<Record<string, number>>;
}

/** What the schema of the interface says of the values, with its own words where it refuses. */
export function readBySchema<Schema extends z.ZodType>(
  schema: Schema,
  values: Values,
): { ok: true; value: z.output<Schema> } | { ok: false; field: string; detail: string } {
  const parsed = schema.safeParse(values);
  if (parsed.success) return { ok: true, value: parsed.data };
  const [issue] = parsed.error.issues;
  return {
    ok: false,
    field: String(issue?.path[0] ?? ""),
    detail: issue?.message ?? "is not valid",
  };
}

export const missing = (field: string) =>
  ({ ok: false, field, detail: "is missing: every row needs it" }) as const;
