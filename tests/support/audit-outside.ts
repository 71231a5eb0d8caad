// What a scope leaves out, and whether an answer tells of it.
import type { NewAccess } from "../../src/features/audit-access/schemas.ts";
import { insideOf } from "./audit-inside.ts";
import type { AuditStage } from "./audit-stage.ts";
import { guidsIn } from "./known-ids.ts";

export interface Outside {
  ids: Set<string>;
  /** What people call them: references and serial numbers, which no id would show. */
  words: string[];
}

/** Ids and names of what the scope leaves out. */
export async function outsideOf(stage: AuditStage, scope: NewAccess["scope"]): Promise<Outside> {
  const inside = await insideOf(stage, scope);
  const told = await stage.rows(
    `SELECT 'site_id' AS kind, id, reference AS word FROM site WHERE firm_id = $1
     UNION ALL SELECT 'job_id', id, reference FROM job WHERE firm_id = $1
     UNION ALL SELECT 'unit_id', id, serial FROM unit WHERE firm_id = $1
     UNION ALL SELECT 'customer_id', id, reference FROM customer WHERE firm_id = $1
     UNION ALL SELECT 'visit_id', id, NULL FROM visit WHERE firm_id = $1`,
    [stage.demo.firmId],
  );
  const out = told.filter(({ kind, id = "" }) => !inside[kind as "job_id"].has(id));
  const children = await stage.rows(
    `SELECT id FROM snag WHERE firm_id = $1 AND NOT job_id = ANY ($2)
     UNION ALL SELECT id FROM concession WHERE firm_id = $1 AND NOT job_id = ANY ($2)
     UNION ALL SELECT id FROM bank WHERE firm_id = $1 AND NOT site_id = ANY ($3)
     UNION ALL SELECT id FROM recurring_inspection WHERE firm_id = $1 AND NOT site_id = ANY ($3)
     UNION ALL SELECT id FROM warranty_claim WHERE firm_id = $1 AND NOT unit_id = ANY ($4)
     UNION ALL SELECT id FROM nonconformance WHERE firm_id = $1 AND (NOT job_id = ANY ($2)
       OR NOT site_id = ANY ($3) OR NOT unit_id = ANY ($4))`,
    [stage.demo.firmId, [...inside.job_id], [...inside.site_id], [...inside.unit_id]],
  );
  return {
    ids: new Set([...out, ...children].map(({ id = "" }) => id)),
    words: out.flatMap(({ word }) => (word ? [word] : [])),
  };
}

/** Links of a row that is seen to one that is not: the id alone, which opens nothing. */
const LINKS = /"(otherUnitId|replacesUnitId|followUpJobId|followUpVisitId|bankId)":"[^"]*"/g;

/** What the auditor has named may be told them again, such as the filter of their own export. */
const named = new Set<string>();

export function leaks({ ids, words }: Outside, { body }: { body: string }, sent = ""): string[] {
  const text = body.replaceAll(LINKS, "");
  for (const id of guidsIn(sent)) named.add(id);
  return [
    ...guidsIn(text).filter((id) => ids.has(id) && !named.has(id)),
    ...words.filter((word) => new RegExp(`(?<![A-Za-z0-9-])${word}(?![A-Za-z0-9])`).test(text)),
  ];
}
