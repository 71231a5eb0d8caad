import { ExportScope } from "./schemas.ts";
import type { ExportRow } from "./store.ts";

export const shown = (row: ExportRow) => ({
  id: row.id,
  scope: ExportScope.parse(row.scope),
  title: row.title,
  fileName: row.fileName,
  state: row.state as "making" | "ready" | "failed" | "gone",
  jobsDone: row.jobsDone,
  jobsTotal: row.jobsTotal,
  bytes: row.bytes === null ? null : Number(row.bytes),
  sha256: row.sha256,
  problem: row.problem,
  stampedAt: row.stampedAt?.toISOString() ?? null,
  stampProblem: row.stampProblem,
  personId: row.personId,
  personName: row.person.name,
  createdAt: row.createdAt.toISOString(),
  finishedAt: row.finishedAt?.toISOString() ?? null,
});
