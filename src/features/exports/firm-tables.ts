// Tables of what the firm works with: models, plans, crews, who is away and who holds what.
import { equals, holds, isArchived, moment, type SqlList } from "./list-store.ts";

export const MODELS: SqlList = {
  alias: "m",
  from: "product_model m",
  columns: {
    ...{ code: "m.code", name: "m.name", maker: "m.maker", kind: "m.kind" },
    ...{ serialMask: "m.serial_mask", serialCheck: "m.serial_check" },
    ...{ firmwareScheme: "m.firmware_scheme", addedAt: moment("m.created_at") },
  },
  conditions: { code: holds("m.code"), kind: equals("m.kind", "text") },
};

export const PLANS: SqlList = {
  alias: "p",
  from: `plan p LEFT JOIN LATERAL (SELECT max(v.number) AS number FROM plan_version v
    WHERE v.firm_id = p.firm_id AND v.plan_id = p.id AND v.state = 'published') v ON true`,
  columns: {
    ...{ code: "p.code", title: "p.title", publishedVersion: "v.number" },
    addedAt: moment("p.created_at"),
  },
  conditions: { code: "p.code = upper(?::text)", title: holds("p.title") },
};

export const CREWS: SqlList = {
  alias: "c",
  from: "crew c",
  columns: {
    ...{ name: "c.name", active: "c.active" },
    people: `(SELECT string_agg(p.name, ', ' ORDER BY p.name) FROM crew_member k
      JOIN person p ON p.firm_id = k.firm_id AND p.id = k.person_id
      WHERE k.firm_id = c.firm_id AND k.crew_id = c.id)`,
  },
  conditions: {
    active: equals("c.active", "boolean"),
    name: "strpos(fold_text(c.name), fold_text(?::text)) > 0",
  },
};

export const CONSUMABLES: SqlList = {
  alias: "c",
  from: "consumable c",
  columns: {
    ...{ code: "c.code", name: "c.name", countedIn: "c.counted_in" },
    ...{ leastAmount: "c.least_amount::float8", archived: "(c.archived_at IS NOT NULL)" },
  },
  conditions: { code: holds("c.code"), archived: isArchived("c") },
};

export const QUALIFICATIONS: SqlList = {
  alias: "q",
  from: `qualification q JOIN person p ON p.firm_id = q.firm_id AND p.id = q.person_id
    JOIN qualification_kind k ON k.firm_id = q.firm_id AND k.id = q.kind_id`,
  columns: {
    ...{ person: "p.name", qualification: "k.name", number: "q.number", issuedBy: "q.issued_by" },
    ...{ validFrom: "q.valid_from::text", validTo: "q.valid_to::text" },
  },
  conditions: {
    personId: equals("q.person_id", "uuid"),
    kindId: equals("q.kind_id", "uuid"),
    endsBefore: "q.valid_to < ?::date",
  },
};

export const ABSENCES: SqlList = {
  alias: "a",
  from: "absence a JOIN person p ON p.firm_id = a.firm_id AND p.id = a.person_id",
  columns: {
    ...{ person: "p.name", startsAt: moment("a.starts_at"), endsAt: moment("a.ends_at") },
    ...{ reason: "a.reason", note: "a.note" },
  },
  conditions: {
    personId: equals("a.person_id", "uuid"),
    endsAfter: "a.ends_at > ?::timestamptz",
    startsBefore: "a.starts_at < ?::timestamptz",
  },
};

export const INSPECTIONS: SqlList = {
  alias: "r",
  from: `recurring_inspection r JOIN site s ON s.firm_id = r.firm_id AND s.id = r.site_id
    JOIN plan p ON p.firm_id = r.firm_id AND p.id = r.plan_id`,
  columns: {
    ...{ site: "s.reference", title: "r.title", plan: "p.code", everyMonths: "r.every_months" },
    ...{ nextDueOn: "r.next_due_on::text", endedAt: moment("r.ended_at") },
  },
  conditions: {
    siteId: equals("r.site_id", "uuid"),
    ended: "(r.ended_at IS NOT NULL) = ?::boolean",
    dueBefore: "r.next_due_on < ?::date",
  },
};

const COUNTED = (part: string): string => `jsonb_array_length(r.proposal->'${part}')`;

export const UPDATE_ROUNDS: SqlList = {
  alias: "r",
  from: `update_round r JOIN person p ON p.firm_id = r.firm_id AND p.id = r.created_by_id
    LEFT JOIN update_round o ON o.firm_id = r.firm_id AND o.id = r.replaces_id`,
  columns: {
    ...{ reference: "r.reference", state: "r.state", madeBy: "p.name" },
    ...{ madeAt: moment("r.created_at"), decidedAt: moment("r.decided_at") },
    ...{ replaces: "o.reference", fromDay: "r.request->>'fromDay'", rounds: COUNTED("rounds") },
    stops: `(SELECT sum(jsonb_array_length(d->'stops'))::int
      FROM jsonb_array_elements(r.proposal->'rounds') d)`,
    ...{ leftOut: COUNTED("leftOut"), driveMin: "(r.proposal->>'driveMin')::float8" },
    distanceKm: "(r.proposal->>'distanceKm')::float8",
    visits: `(SELECT count(*)::int FROM update_round_visit v
      WHERE v.firm_id = r.firm_id AND v.round_id = r.id)`,
  },
  conditions: { state: equals("r.state", "text") },
};
