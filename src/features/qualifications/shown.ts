import { daysBetween } from "../../domain/dates/plain-date.ts";
import type { JOB_KINDS } from "../jobs/schemas.ts";
import type { KindRow } from "./kind-store.ts";
import type { RequirementRow } from "./requirement-store.ts";
import { dayText, type QualificationRow } from "./store.ts";

export const shownKind = ({ id, name, warnDays, archivedAt, version }: KindRow) => ({
  ...{ id, name, warnDays, version },
  archived: archivedAt !== null,
});

/** @param today by the firm's calendar */
export function shown(row: QualificationRow, today: string) {
  const { id, person, kind, number, issuedBy, version } = row;
  const validTo = row.validTo === null ? null : dayText(row.validTo);
  const daysLeft = validTo === null ? null : daysBetween(today, validTo);
  return {
    ...{ id, person, kind: { id: kind.id, name: kind.name }, number, issuedBy },
    ...{ validFrom: dayText(row.validFrom), validTo, daysLeft },
    runsOut: daysLeft !== null && daysLeft <= kind.warnDays,
    version,
  };
}

export const shownRequirement = ({ id, jobKind, askedOf, kind }: RequirementRow) => ({
  id,
  jobKind: jobKind as (typeof JOB_KINDS)[number],
  askedOf: askedOf as "everyone" | "someone",
  kind: { id: kind.id, name: kind.name },
});
