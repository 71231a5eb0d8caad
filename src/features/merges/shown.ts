import type { z } from "zod";
import type { Merge } from "./schemas.ts";
import type { MergeKind, MergeRow, MovedPart } from "./store.ts";

export function shownMerge(row: MergeRow): z.infer<typeof Merge> {
  const moved = row.moved as unknown as MovedPart[];
  return {
    id: row.id,
    kind: row.kind as MergeKind,
    fromId: row.fromId,
    intoId: row.intoId,
    moved: moved.map(({ table, rows }) => ({ what: table, count: rows.length })),
    filled: Object.keys(row.filled as object),
    mergedBy: row.person.name,
    mergedAt: row.createdAt.toISOString(),
    undoneBy: row.undoneBy?.name ?? null,
    undoneAt: row.undoneAt?.toISOString() ?? null,
  };
}
