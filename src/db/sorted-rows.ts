// Lists in the order of a text, a page at a time: the text and the id of the last row are where the
// next page starts, so no row is read twice and none is missed while others come and go.
import type { FirmTransaction } from "./scope.ts";

export interface Place {
  text: string;
  id: string;
}

export interface SortedQuestion {
  /** What is selected, from where; each row must have an `id`. */
  select: string;
  from: string;
  /** Conditions, their values as $1, $2 and so on. */
  where: readonly string[];
  values: readonly unknown[];
  /** A text that is never null, and the id that decides between equal ones. */
  by: string;
  id: string;
  descending: boolean;
  after?: Place | undefined;
  most: number;
}

/**
 * The rows, each with its place. Texts are in the order of their bytes, which an index can be in
 * whatever the database's own order is, and which row-level security lets the index answer.
 */
export async function sortedRows<Row>(
  tx: FirmTransaction,
  question: SortedQuestion,
): Promise<(Row & { place: string })[]> {
  const { select, from, by, id, descending, after, most } = question;
  const values = [...question.values];
  const where = [...question.where];
  if (after) {
    values.push(after.text, after.id);
    const [text, last] = [`$${values.length - 1}`, `$${values.length}::uuid`];
    const [beyond, later] = descending ? ["~<=~", "<"] : ["~>=~", ">"];
    where.push(`${by} ${beyond} ${text} AND (${by} <> ${text} OR ${id} ${later} ${last})`);
  }
  values.push(most);
  const order = descending ? `${by} USING ~>~, ${id} DESC` : `${by} USING ~<~, ${id}`;
  return tx.$queryRawUnsafe<(Row & { place: string })[]>(
    `SELECT ${select}, ${by} AS place FROM ${from} WHERE ${where.join(" AND ")}
     ORDER BY ${order} LIMIT $${values.length}::integer`,
    ...values,
  );
}

/** Rows that were read by their ids, in the order and with the places in which those were found. */
export function inPlaces<Row extends { id: string }>(
  rows: readonly Row[],
  found: readonly { id: string; place: string }[],
): (Row & { place: string })[] {
  const byId = new Map(rows.map((row) => [row.id, row]));
  return found.flatMap(({ id, place }) => {
    const row = byId.get(id);
    return row ? [{ ...row, place }] : [];
  });
}

/** A moment as a text that sorts as time goes by, for `by`. @param column a timestamptz */
export const momentText = (column: string): string =>
  `to_char(${column} AT TIME ZONE 'UTC', 'YYYY-MM-DD HH24:MI:SS.MS')`;
