// What the firm goes by: versions of plans, rule packs, rings, what jobs ask of people.
import { z } from "zod";
import { inFirm } from "../../db/scope.ts";
import {
  QualificationKindQuery,
  QualificationRequirementQuery,
} from "../qualifications/schemas.ts";
import { allPackHeads } from "../rule-packs/heads.ts";
import { RulePackQuery } from "../rule-packs/schemas.ts";
import type { ExportList } from "./list.ts";
import { equals, moment, type SqlList } from "./list-store.ts";
import { ofTable, PAGING } from "./lists.ts";

const PLAN_VERSIONS: SqlList = {
  alias: "v",
  from: `plan_version v JOIN plan p ON p.firm_id = v.firm_id AND p.id = v.plan_id
    LEFT JOIN person b ON b.firm_id = v.firm_id AND b.id = v.published_by_id`,
  columns: {
    ...{ plan: "p.code", version: "v.number", state: "v.state", sha256: "v.sha256" },
    ...{ publishedAt: moment("v.published_at"), publishedBy: "b.name" },
    jobs: `(SELECT count(*)::int FROM job j
      WHERE j.firm_id = v.firm_id AND j.plan_version_id = v.id)`,
  },
  conditions: { planId: equals("v.plan_id", "uuid") },
};

const RINGS: SqlList = {
  alias: "r",
  from: "firmware_ring r",
  columns: {
    ...{ position: "r.position", name: "r.name", updatedLeast: "r.updated_least" },
    ...{ soakDays: "r.soak_days", failureMost: "r.failure_most", opensItself: "r.opens_itself" },
    sites: "(SELECT count(*)::int FROM site s WHERE s.firm_id = r.firm_id AND s.ring_id = r.id)",
  },
  conditions: {},
};

const KINDS: SqlList = {
  alias: "k",
  from: "qualification_kind k",
  columns: {
    ...{ name: "k.name", warnDays: "k.warn_days", archivedAt: moment("k.archived_at") },
    askedFor: `(SELECT string_agg(r.job_kind, ' ' ORDER BY r.job_kind)
      FROM qualification_requirement r WHERE r.firm_id = k.firm_id AND r.kind_id = k.id)`,
  },
  conditions: { archived: "(k.archived_at IS NOT NULL) = ?::boolean" },
};

const REQUIREMENTS: SqlList = {
  alias: "r",
  from: `qualification_requirement r
    JOIN qualification_kind k ON k.firm_id = r.firm_id AND k.id = r.kind_id`,
  columns: { jobKind: "r.job_kind", qualification: "k.name", askedOf: "r.asked_of" },
  conditions: { jobKind: equals("r.job_kind", "text") },
};

export const planVersions = ofTable(PLAN_VERSIONS, {
  ...{ name: "plan-versions", operationId: "exportPlanVersions" },
  summary: "Take the versions of plans away, with how many jobs use each",
  query: z.strictObject({ planId: z.guid() }).partial(),
});

export const firmwareRings = ofTable(RINGS, {
  ...{ name: "firmware-rings", operationId: "exportFirmwareRings", query: z.strictObject({}) },
  summary: "Take the rings away",
});

export const qualificationKinds = ofTable(KINDS, {
  ...{ name: "qualification-kinds", operationId: "exportQualificationKinds" },
  summary: "Take the kinds of qualification away",
  query: QualificationKindQuery.omit(PAGING),
});

export const qualificationRequirements = ofTable(REQUIREMENTS, {
  ...{ name: "qualification-requirements", operationId: "exportQualificationRequirements" },
  summary: "Take away which qualifications jobs ask for",
  query: QualificationRequirementQuery.omit(PAGING),
});

const PackFilter = RulePackQuery.omit(PAGING);

export const rulePacks: ExportList<z.output<typeof PackFilter>> = {
  ...{ name: "rule-packs", operationId: "exportRulePacks", query: PackFilter },
  summary: "Take the list of rule packs away, the product's and the firm's own",
  columns: ["id", "region", "title", "builtIn", "version"],
  async *pages({ db, firmId }, { region }) {
    const heads = await inFirm(db, firmId, (tx) => allPackHeads(tx, region));
    yield heads.map(({ id, title, builtIn, version, ...head }) => [
      ...[id, head.region, title, builtIn, version],
    ]);
  },
};
