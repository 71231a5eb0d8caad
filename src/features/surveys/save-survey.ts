import { createHash } from "node:crypto";
import type { FirmTransaction } from "../../db/scope.ts";
import { canonicalize } from "../../domain/evidence/canonical-json.ts";
import type { Survey } from "../../domain/siting/survey.ts";
import { notFound, Problem } from "../../errors.ts";
import { editedMeanwhile } from "../../web/etag.ts";
import { findSite } from "../sites/store.ts";
import { addSurvey, currentSurvey, findSurvey, type SurveyRow } from "./store.ts";

export interface SurveyWish {
  siteId: string;
  survey: Survey;
  personId: string;
  /** Version the edit was made against; undefined where the caller knew of no survey. */
  version: number | undefined;
}

/**
 * Keeps the survey as the site's next version. What is the current one already is not kept twice,
 * whatever version it was made against (RFC 9110 13.1.1), so sending again is harmless.
 */
export async function saveSurvey(
  tx: FirmTransaction,
  { siteId, survey, personId, version }: SurveyWish,
  now: Date,
): Promise<{ row: SurveyRow; isNew: boolean }> {
  if (!(await findSite(tx, siteId))) throw notFound("site");
  const present = await currentSurvey(tx, siteId);
  const sha256 = createHash("sha256").update(canonicalize(survey)).digest("hex");
  if (present?.sha256 === sha256) return { row: present, isNew: false };
  requireVersion(present, version);
  const number = (present?.number ?? 0) + 1;
  const fields = { siteId, number, document: survey, sha256, personId, createdAt: now };
  if (!(await addSurvey(tx, fields))) throw editedMeanwhile();
  return { row: await readSurvey(tx, siteId, number), isNew: true };
}

function requireVersion(present: SurveyRow | null, version: number | undefined): void {
  if (present && version === undefined) {
    throw new Problem("if-match-needed", "The site has a survey; send its ETag as If-Match.");
  }
  if (version !== present?.number && version !== undefined) throw editedMeanwhile();
}

/** The site's survey, the current one where no number is given. */
export async function readSurvey(
  tx: FirmTransaction,
  siteId: string,
  number?: number,
): Promise<SurveyRow> {
  const row = await (number === undefined
    ? currentSurvey(tx, siteId)
    : findSurvey(tx, siteId, number));
  if (row) return row;
  if (!(await findSite(tx, siteId))) throw notFound("site");
  const detail =
    number === undefined
      ? `The site has no survey yet. Save one with PUT /api/v1/sites/${siteId}/survey.`
      : `The site has no survey of version ${number}.`;
  throw new Problem("not-found", detail);
}
