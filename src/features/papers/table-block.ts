import type { Block, Column } from "./block.ts";
import type { Words } from "./words.ts";

export type Row = readonly string[];

export const tableOf = (
  columns: readonly (readonly [title: string, share: number])[],
  rows: Row[],
): Block => ({
  kind: "table",
  columns: columns.map(([title, share]): Column => ({ title, share })),
  rows,
});

/** Says so where there is nothing to list: an empty place could be a lost one. */
export const tableOr = (words: Words, columns: [string, number][], rows: Row[]): Block =>
  rows.length === 0 ? { kind: "text", text: words.say("papers.none") } : tableOf(columns, rows);
