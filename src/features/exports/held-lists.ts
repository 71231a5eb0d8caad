// What waits for somebody: held from tablets, set apart, told to customers soon; who audits what.
import { z } from "zod";
import { HeldQuery } from "../tablet/held-schemas.ts";
import type { ExportList } from "./list.ts";
import { equals, JOB_SOURCE, moment, type SqlList } from "./list-store.ts";
import { ofTable, PAGING, sqlPages } from "./lists.ts";

const HELD: SqlList = {
  alias: "o",
  key: { column: "op_id", type: "uuid" },
  from: `(SELECT * FROM tablet_op WHERE outcome = 'held') o
    JOIN person s ON s.firm_id = o.firm_id AND s.id = o.sent_by_id
    LEFT JOIN person p ON p.firm_id = o.firm_id AND p.id = o.person_id
    LEFT JOIN job j ON j.firm_id = o.firm_id AND j.id = o.job_id
    LEFT JOIN person d ON d.firm_id = o.firm_id AND d.id = o.decided_by_id`,
  columns: {
    ...{ operation: "o.op_id::text", kind: "o.kind", job: "j.reference", keptBy: "p.name" },
    ...{ sentBy: "s.name", receivedAt: moment("o.received_at"), decision: "o.decision" },
    ...{ decidedBy: "d.name", decidedAt: moment("o.decided_at"), reason: "o.decision_reason" },
  },
  conditions: {
    jobId: equals("o.job_id", "uuid"),
    decided: "(o.decided_at IS NOT NULL) = ?::boolean",
  },
};

const QUARANTINE: SqlList = {
  alias: "q",
  from: "tablet_quarantine q JOIN person p ON p.firm_id = q.firm_id AND p.id = q.sent_by_id",
  columns: {
    ...{ operation: "q.op_id::text", device: "q.device_id::text", sentBy: "p.name" },
    ...{ why: "q.why", bytes: "q.bytes", sha256: "q.sha256" },
    receivedAt: moment("q.received_at"),
  },
  conditions: {},
};

const TELLINGS: SqlList = {
  alias: "n",
  key: { column: "visit_id", type: "uuid" },
  from: `(SELECT t.*, v.job_id, v.starts_at, v.state FROM visit_telling t
      JOIN visit v ON v.firm_id = t.firm_id AND v.id = t.visit_id
      WHERE t.due_at IS NOT NULL) n ${JOB_SOURCE}`,
  columns: {
    ...{ job: "j.reference", site: "s.reference", startsAt: moment("n.starts_at") },
    ...{ visit: "n.state", changedAt: moment("n.changed_at"), writtenAt: moment("n.due_at") },
  },
  conditions: { startsAfter: "n.starts_at > ?::timestamptz" },
};

const ACCESSES: SqlList = {
  alias: "a",
  from: `audit_access a JOIN person p ON p.firm_id = a.firm_id AND p.id = a.person_id
    JOIN person g ON g.firm_id = a.firm_id AND g.id = a.given_by_id
    LEFT JOIN person w ON w.firm_id = a.firm_id AND w.id = a.withdrawn_by_id`,
  columns: {
    ...{ person: "p.name", outside: "a.outside", from: "a.from_on::text" },
    ...{ until: "a.until_on::text", periodFrom: "a.period_from::text" },
    ...{ periodTo: "a.period_to::text", models: "cardinality(a.model_ids)" },
    ...{ sites: "cardinality(a.site_ids)", givenBy: "g.name", givenAt: moment("a.given_at") },
    ...{ withdrawnBy: "w.name", withdrawnAt: moment("a.withdrawn_at") },
  },
  conditions: { personId: equals("a.person_id", "uuid") },
};

export const heldOperations = ofTable(HELD, {
  ...{ name: "held-operations", operationId: "exportHeldOperations" },
  summary: "Take away what tablets kept and could not take effect",
  query: HeldQuery.omit(PAGING),
});

export const quarantine = ofTable(QUARANTINE, {
  ...{ name: "quarantine", operationId: "exportQuarantine", query: z.strictObject({}) },
  summary: "Take the list of operations in quarantine away, without their content",
});

export const visitTellings: ExportList<Record<string, never>> = {
  ...{ name: "visit-tellings", operationId: "exportVisitTellings", query: z.strictObject({}) },
  summary: "Take away of which visits customers are about to be told",
  columns: Object.keys(TELLINGS.columns),
  pages: (ask) => sqlPages(ask, TELLINGS, { startsAfter: ask.now.toISOString() }),
};

export const auditAccess = ofTable(ACCESSES, {
  ...{ name: "audit-access", operationId: "exportAuditAccess" },
  summary: "Take away who may audit what and until when, of all people or of one",
  query: z.strictObject({ personId: z.guid() }).partial(),
});
