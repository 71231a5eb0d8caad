// What was proven, exported, counted and erased.
import { z } from "zod";
import { EXPORT_STATES } from "../evidence-exports/schemas.ts";
import { DayQuery } from "../notices/schemas.ts";
import { ErasureQuery } from "../privacy/schemas.ts";
import { equals, JOB_SOURCE, moment, type SqlList } from "./list-store.ts";
import { ofTable, PAGING, SORTED } from "./lists.ts";

const ANSWERS: SqlList = {
  alias: "n",
  from: `answer n ${JOB_SOURCE}
    JOIN person p ON p.firm_id = n.firm_id AND p.id = n.person_id
    LEFT JOIN instrument i ON i.firm_id = n.firm_id AND i.id = n.instrument_id`,
  columns: {
    ...{ job: "j.reference", site: "s.reference", item: "n.item_id", subject: "n.subject" },
    ...{ takenAt: "n.taken_at_text", person: "p.name", instrument: "i.reference" },
    ...{ value: "n.value::text", numberSi: "n.number_si", outcome: "n.outcome" },
    ...{ note: "n.note", photos: "array_to_string(n.photos, ' ')" },
  },
  conditions: {
    jobId: equals("n.job_id", "uuid"),
    itemId: equals("n.item_id", "text"),
    subject: equals("n.subject", "text"),
  },
};

const BAGS: SqlList = {
  alias: "e",
  from: "evidence_export e JOIN person p ON p.firm_id = e.firm_id AND p.id = e.person_id",
  columns: {
    ...{ title: "e.title", fileName: "e.file_name", state: "e.state", jobs: "e.jobs_total" },
    ...{ bytes: "e.bytes::text", sha256: "e.sha256", problem: "e.problem", person: "p.name" },
    ...{ askedAt: moment("e.created_at"), finishedAt: moment("e.finished_at") },
    ...{ stampedAt: moment("e.stamped_at"), stampProblem: "e.stamp_problem" },
  },
  conditions: { state: equals("e.state", "text") },
};

const CHECKPOINTS: SqlList = {
  alias: "c",
  key: { column: "number", type: "int" },
  from: "ledger_checkpoint c",
  columns: {
    ...{ number: "c.number", day: "c.day::text", jobs: "c.jobs", previous: "c.previous" },
    sha256: "c.sha256",
  },
  conditions: {},
};

const KEYS: SqlList = {
  alias: "k",
  from: "evidence_key k",
  columns: { certificateSha256: "k.sha256", madeAt: moment("k.created_at") },
  conditions: {},
};

const ERASURES: SqlList = {
  alias: "e",
  from: `erasure e JOIN customer c ON c.firm_id = e.firm_id AND c.id = e.customer_id
    JOIN person p ON p.firm_id = e.firm_id AND p.id = e.person_id`,
  columns: {
    ...{ customer: "c.reference", reason: "e.reason", person: "p.name" },
    erasedAt: moment("e.erased_at"),
  },
  conditions: {},
};

const DUE_RECORDS: SqlList = {
  alias: "d",
  from: "due_list_record d",
  columns: { day: "d.day::text", sites: "d.site_count", units: "d.unit_count" },
  conditions: { day: equals("d.day", "date") },
};

const EFFECT_CHECKS: SqlList = {
  alias: "e",
  from: `effect_check e
    JOIN nonconformance n ON n.firm_id = e.firm_id AND n.id = e.nonconformance_id
    JOIN person p ON p.firm_id = e.firm_id AND p.id = e.checked_by_id`,
  columns: {
    ...{ nonconformance: "n.reference", verdict: "e.verdict", note: "e.note" },
    ...{ cause: "e.cause", correction: "e.correction", checkedBy: "p.name" },
    checkedAt: moment("e.checked_at"),
  },
  conditions: { nonconformanceId: equals("e.nonconformance_id", "uuid") },
};

const WHOLE = z.strictObject({});

export const answers = ofTable(ANSWERS, {
  ...{ name: "answers", operationId: "exportAnswers" },
  summary: "Take the answers away, every attempt with its verdict, of all jobs or of one",
  query: z
    .strictObject({ jobId: z.guid(), itemId: z.string().max(64), subject: z.string().max(200) })
    .partial(),
});

export const evidenceExports = ofTable(BAGS, {
  ...{ name: "evidence-exports", operationId: "exportEvidenceExports" },
  summary: "Take the list of evidence bags away",
  query: z.strictObject({ ...SORTED, state: z.enum(EXPORT_STATES).optional() }),
});

export const ledgerCheckpoints = ofTable(CHECKPOINTS, {
  ...{ name: "ledger-checkpoints", operationId: "exportLedgerCheckpoints", query: WHOLE },
  summary: "Take the daily hashes over all ledgers away",
});

export const evidenceKeys = ofTable(KEYS, {
  ...{ name: "evidence-keys", operationId: "exportEvidenceKeys", query: WHOLE },
  summary: "Take the list of the firm's certificates away",
});

export const erasures = ofTable(ERASURES, {
  ...{ name: "erasures", operationId: "exportErasures", summary: "Take the erasures away" },
  query: ErasureQuery.omit(PAGING),
});

export const dueListRecords = ofTable(DUE_RECORDS, {
  ...{ name: "due-list-records", operationId: "exportDueListRecords" },
  summary: "Take away how long the due list was on each day",
  query: DayQuery.omit(PAGING),
});

export const effectChecks = ofTable(EFFECT_CHECKS, {
  ...{ name: "effect-checks", operationId: "exportEffectChecks" },
  summary: "Take the effect checks away, of all nonconformances or of one",
  query: z.strictObject({ nonconformanceId: z.guid() }).partial(),
});
