import type { z } from "zod";
import type { Judged } from "./judge-site.ts";
import { FINDINGS_MOST, type SitingJudgement, type SurveyHead } from "./schemas.ts";
import type { SurveyRow } from "./store.ts";

type Head = Pick<
  SurveyRow,
  "id" | "siteId" | "number" | "sha256" | "personId" | "person" | "createdAt"
>;

export const shownHead = (row: Head): z.infer<typeof SurveyHead> & { id: string } => ({
  id: row.id,
  siteId: row.siteId,
  number: row.number,
  sha256: row.sha256,
  savedById: row.personId,
  savedBy: row.person.name,
  savedAt: row.createdAt.toISOString(),
});

export const shownSurvey = (row: SurveyRow) => ({
  ...shownHead(row),
  document: row.document as Record<string, unknown>,
});

export function shownJudgement({
  pack,
  version,
  judgement,
}: Judged): z.infer<typeof SitingJudgement> {
  const { findings, summary, caution } = judgement;
  return {
    rulePack: { id: pack.id, title: pack.title, region: pack.region, version },
    findings: findings
      .slice(0, FINDINGS_MOST)
      .map(({ between, zone: _zone, ...finding }) => ({ ...finding, between: [...between] })),
    findingCount: findings.length,
    summary,
    caution,
  };
}
