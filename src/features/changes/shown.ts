import type { z } from "zod";
import type { Change } from "./schemas.ts";
import type { ChangeRow } from "./store.ts";

/** @param canUndo whether nothing has been changed since */
export function shownChange(row: ChangeRow, canUndo: boolean): z.infer<typeof Change> {
  const before = row.before as Record<string, unknown>;
  const after = row.after as Record<string, unknown>;
  return {
    id: row.id,
    at: row.at.toISOString(),
    by: row.person,
    fields: Object.keys(after)
      .sort()
      .map((column) => ({
        name: fieldName(column),
        before: before[column] ?? null,
        after: after[column] ?? null,
      })),
    undoesId: row.undoesId,
    undone: row.undoneBy.length > 0,
    canUndo,
  };
}

/** "address_line" is addressLine. */
export const fieldName = (column: string): string =>
  column.replace(/_([a-z])/g, (_, letter: string) => letter.toUpperCase());
