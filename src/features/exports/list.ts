import type { z } from "zod";
import type { Database } from "../../db/client.ts";
import type { CsvCell } from "../../web/csv.ts";

export interface ExportAsk {
  db: Database;
  firmId: string;
  now: Date;
}

/**
 * A list as it is taken away: its columns, the filters of the list itself, and its rows in pages.
 */
export interface ExportList<Filter = never> {
  name: string;
  operationId: string;
  summary: string;
  query: z.ZodType<Filter>;
  columns: readonly string[];
  pages(ask: ExportAsk, filter: Filter): AsyncIterable<readonly (readonly CsvCell[])[]>;
}

/** Rows of a page; so many are in memory at a time. */
export const A_PAGE = 500;
