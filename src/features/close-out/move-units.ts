// What a proven job means for its units: an installation makes them installed at the job's site, a
// removal takes them off it. The units' own verbs write history and ledger.
import type { FirmTransaction } from "../../db/scope.ts";
import type { JobRecord } from "../job-record/store.ts";
import { installUnit } from "../units/install-unit.ts";
import { removeUnit } from "../units/remove-unit.ts";

export async function moveUnits(
  tx: FirmTransaction,
  { job, units }: JobRecord,
  personId: string,
  now: Date,
): Promise<void> {
  for (const { id: unitId } of units) {
    const move = { unitId, jobId: job.id, personId, at: now };
    if (job.kind === "install") await installUnit(tx, { ...move, siteId: job.siteId });
    if (job.kind === "removal")
      await removeUnit(tx, { ...move, reason: `Removed on ${job.reference}` });
  }
}
