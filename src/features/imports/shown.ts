import type { z } from "zod";
import type { Figures, Import } from "./schemas.ts";
import type { ImportRow } from "./store.ts";

type Shown = z.infer<typeof Import>;

export const shown = (row: ImportRow): Shown => ({
  id: row.id,
  kind: row.kind as Shown["kind"],
  fileName: row.fileName,
  state: row.state as Shown["state"],
  bytes: row.bytes === null ? null : Number(row.bytes),
  sha256: row.sha256,
  encoding: row.encoding,
  delimiter: row.delimiter,
  headers: row.headers as string[],
  samples: row.samples as string[][],
  columns: row.columns as (string | null)[],
  constants: row.constants as Record<string, string>,
  badRows: row.badRows as Shown["badRows"],
  figures: row.figures as Figures,
  progress: { done: Number(row.progressDone), total: Number(row.progressTotal) },
  problem: row.problem,
  personId: row.personId,
  personName: row.person.name,
  createdAt: row.createdAt.toISOString(),
  checkedAt: row.checkedAt?.toISOString() ?? null,
  finishedAt: row.finishedAt?.toISOString() ?? null,
  version: row.version,
});
