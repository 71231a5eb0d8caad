import type { z } from "zod";
import type { Target } from "./schemas.ts";
import type { TargetRow } from "./target-store.ts";

const dayOf = (date: Date): string => date.toISOString().slice(0, 10);

export const shownTarget = (row: TargetRow): z.infer<typeof Target> => ({
  ...{ id: row.id, ringId: row.ringId, region: row.region, heldReason: row.heldReason },
  state: row.state as z.infer<typeof Target>["state"],
  openedAt: row.openedAt?.toISOString() ?? null,
  modelId: row.modelId,
  releaseId: row.releaseId,
  level: row.release.level,
  severity: row.release.severity as z.infer<typeof Target>["severity"],
  withdrawnOn: row.release.withdrawnOn ? dayOf(row.release.withdrawnOn) : null,
  setAt: row.setAt.toISOString(),
  setById: row.setById,
  dueOn: dayOf(row.dueOn),
  version: row.version,
});
