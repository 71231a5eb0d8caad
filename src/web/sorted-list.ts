// A page of a list that can be sorted by several columns: what its address says, and the links that
// lead on from it.
import { z } from "zod";
import { invalid } from "../errors.ts";
import { type ListView, listView } from "./list-view.ts";

export const A_PAGE = 40;

/** A form that is sent posts its empty fields too; an empty one asks for nothing. */
export const asked = <Schema extends z.ZodType>(schema: Schema) =>
  z.union([z.literal("").transform(() => undefined), schema]).optional();

/** The sort and the place of a list's address. */
export const sortedQuery = (columns: readonly [string, ...string[]]) => ({
  sort: asked(z.enum([...columns, ...columns.map((column) => `-${column}`)])),
  cursor: z.string().max(1000).optional(),
});

export interface Sorting {
  column: string;
  descending: boolean;
  after?: { text: string; id: string } | undefined;
}

/** The database has no text with U+0000 in it, and refuses to look for one. */
const Place = z
  .string()
  .max(400)
  .refine((text) => !text.includes("\0"));
const Cursor = z.tuple([Place, z.guid()]);

/** @param usual the column that the list is sorted by unasked */
export function sortingOf(
  { sort, cursor }: { sort?: string | undefined; cursor?: string | undefined },
  usual: string,
): Sorting {
  const wanted = sort ?? usual;
  const sorting = { column: wanted.replace(/^-/, ""), descending: wanted.startsWith("-") };
  return cursor === undefined ? sorting : { ...sorting, after: placeOf(cursor) };
}

function placeOf(cursor: string): { text: string; id: string } {
  try {
    const [text, id] = Cursor.parse(JSON.parse(Buffer.from(cursor, "base64url").toString("utf8")));
    return { text, id };
  } catch {
    throw invalid("/query/cursor", "is not a cursor of this list");
  }
}

export interface SortedPage<Row> {
  rows: Row[];
  list: ListView;
}

/** Of `A_PAGE` + 1 rows the first `A_PAGE`, with the links of the list. */
export function sortedPage<Row extends { id: string; place: string }>(
  rows: readonly Row[],
  state: {
    path: string;
    columns: readonly string[];
    usual: string;
    query: Readonly<Record<string, unknown>>;
    exportPath?: string | undefined;
    /** Id of the part that holds the list, where the page has more above it. */
    part?: string | undefined;
  },
): SortedPage<Row> {
  const { path, columns, usual, query, exportPath, part } = state;
  const { sort, cursor, ...filters } = query;
  const last = rows.length > A_PAGE ? rows[A_PAGE - 1] : undefined;
  const next = last && Buffer.from(JSON.stringify([last.place, last.id])).toString("base64url");
  const list = listView({
    ...{ path, columns, part, sort: typeof sort === "string" ? sort : usual },
    filters: Object.fromEntries(
      Object.entries(filters).map(([name, value]) => [name, said(value)]),
    ),
    next: next ?? null,
    cursor: typeof cursor === "string" ? cursor : undefined,
    ...(exportPath ? { exportPath } : {}),
  });
  return { rows: rows.slice(0, A_PAGE), list };
}

const said = (value: unknown): string | undefined =>
  value === undefined || value === null ? undefined : String(value);
