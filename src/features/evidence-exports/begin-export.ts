import { auditScope } from "../../db/audit-scope.ts";
import type { FirmTransaction } from "../../db/scope.ts";
import { invalid, Problem } from "../../errors.ts";
import { scopeOfAccess, scopeWords } from "../audit-access/scope-words.ts";
import { bagName } from "../evidence/export-bag.ts";
import { type ExportScope, JOBS_MOST } from "./schemas.ts";
import { countJobs, scopeTitle } from "./scope-store.ts";
import { addEvidenceExport, countMaking, type ExportRow } from "./store.ts";

/** At a time in a firm: each takes a disk's worth of room. */
const MAKING_MOST = 3;

/** Puts an export down to be made; what has nothing in it, or too much, is refused at once. */
export async function beginExport(
  tx: FirmTransaction,
  scope: ExportScope,
  personId: string,
  now: Date,
): Promise<ExportRow> {
  const named = await scopeTitle(tx, scope);
  const field = scope.kind === "unit" ? "unitId" : scope.kind === "site" ? "siteId" : "kind";
  if (!named) throw invalid(`/body/scope/${field}`, `There is no such ${scope.kind} in your firm.`);
  const jobsTotal = await countJobs(tx, scope);
  if (jobsTotal === 0) {
    throw invalid(`/body/scope/${field}`, "There is no job in it, so there is nothing to export.");
  }
  if (jobsTotal > JOBS_MOST) {
    const words = `${jobsTotal} jobs are more than the ${JOBS_MOST} of one bag. Choose a period.`;
    throw invalid(`/body/scope/${field}`, words);
  }
  if ((await countMaking(tx)) >= MAKING_MOST) {
    throw new Problem("conflict", "Three exports are being made. Wait for one of them.");
  }
  const fileName = bagName(named.mark);
  const within = await withinWords(tx);
  const title = named.title + within.words;
  const row = { scope, title, fileName: `${fileName}.zip`, jobsTotal, personId, ...within.access };
  return addEvidenceExport(tx, row, now);
}

/** An auditor's bag holds what they may see and no more: its title says so. */
async function withinWords(tx: FirmTransaction) {
  const accessId = auditScope();
  const scope = accessId === undefined ? undefined : await scopeOfAccess(tx, accessId);
  if (accessId === undefined || !scope) return { words: "", access: {} };
  return {
    words: `, within the scope of an audit (${scopeWords(scope)})`,
    access: { auditAccessId: accessId },
  };
}
