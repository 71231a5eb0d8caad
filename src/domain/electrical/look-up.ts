// A table answers only for the rows it holds. Anything else is refused, because a value
// read past the end of a table looks as sure as one that was printed there.
import { type Refusal, refuse } from "./calculation.ts";
import type { ReferenceTable } from "./tables/reference-table.ts";

export type RowFound<Row> = { ok: true; row: Row } | Refusal;
export type Chosen<Word extends string> = { ok: true; word: Word } | Refusal;

/** Accepts a word only when it is one of those offered; for names typed into expressions. */
export function choose<Word extends string>(
  what: string,
  typed: string,
  words: readonly Word[],
): Chosen<Word> {
  const word = words.find((candidate) => candidate === typed);
  if (word !== undefined) return { ok: true, word };
  return refuse(
    "bad-input",
    `The ${what} "${typed}" is not known; use one of ${words.join(", ")}.`,
  );
}

/**
 * The row whose column holds exactly the wanted value.
 *
 * @returns the row, or an out-of-range refusal that lists what the table does hold
 */
export function exactRow<Row, Column extends keyof Row>(
  table: ReferenceTable<Row>,
  column: Column,
  wanted: Row[Column],
  what: string,
): RowFound<Row> {
  const row = table.rows.find((candidate) => candidate[column] === wanted);
  if (row !== undefined) return { ok: true, row };
  const held = table.rows.map((candidate) => String(candidate[column])).join(", ");
  return refuse(
    "out-of-range",
    `${table.clause} as held here has no row for ${what} ${String(wanted)}; it holds ${held}. ` +
      "Use one of these, or take the figure from the standard or the maker.",
  );
}

/**
 * The first row that satisfies a test; rows run from mild to severe, so reading between
 * two rows lands on the severe side.
 */
export function firstRow<Row>(
  table: ReferenceTable<Row>,
  covers: (row: Row) => boolean,
  asked: string,
  held: string,
): RowFound<Row> {
  const row = table.rows.find(covers);
  if (row !== undefined) return { ok: true, row };
  return refuse(
    "out-of-range",
    `${table.clause} as held here does not reach ${asked}; it covers ${held}. ` +
      "Take the figure from the standard or the maker; it is not extrapolated.",
  );
}
