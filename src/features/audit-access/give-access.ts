// An auditor's access is given anew for each change: the one before is withdrawn in the same
// transaction, so that one stands at most and all that were given are there to be read.
import type { FirmTransaction } from "../../db/scope.ts";
import { addPeriod } from "../../domain/dates/period.ts";
import { daysBetween } from "../../domain/dates/plain-date.ts";
import { invalid, notFound, Problem } from "../../errors.ts";
import { todayOfFirm } from "../firms/today.ts";
import { findPerson } from "../people/store.ts";
import { DAYS_MOST, DAYS_USUAL, type NewAccess } from "./schemas.ts";
import {
  type AccessRow,
  addAccess,
  giverFor,
  isOnlyAuditor,
  listAccesses,
  modelsNamed,
  sitesNamed,
  withdrawAccess,
} from "./store.ts";

export interface Giver {
  personId: string;
  now: Date;
}

export async function giveAccess(
  tx: FirmTransaction,
  personId: string,
  asked: NewAccess,
  { personId: givenById, now }: Giver,
): Promise<AccessRow> {
  const person = await findPerson(tx, personId);
  if (!person) throw notFound("person");
  if (!isOnlyAuditor(person.roles)) {
    const words = `${person.name} is not an auditor alone, so an access would limit nothing.`;
    throw new Problem("conflict", `${words} Leave the role of auditor only, then give it.`);
  }
  const { outside, until = null, scope } = asked;
  const from = asked.from ?? (await todayOfFirm(tx, now));
  refuseDays({ outside, from, until }, "/body/until");
  await refuseUnknown(tx, scope);
  await withdrawAccess(tx, personId, { withdrawnById: givenById, withdrawnAt: now });
  await addAccess(tx, {
    ...{ personId, outside, givenById, givenAt: now, fromOn: new Date(from) },
    untilOn: until === null ? null : new Date(until),
    periodFrom: scope.period ? new Date(scope.period.from) : null,
    periodTo: scope.period ? new Date(scope.period.to) : null,
    ...{ modelIds: scope.modelIds ?? [], siteIds: scope.siteIds ?? [] },
  });
  const [row] = await listAccesses(tx, personId, 1);
  return row as AccessRow;
}

/** When somebody begins to be an auditor, and until when they are to see something. */
export interface Beginning {
  now: Date;
  /** Last day; after the usual number of days where none is given. */
  until?: string | undefined;
}

/**
 * Whoever becomes an auditor and nothing else sees the whole firm for some days, in the same
 * transaction, unless an access stands from before. They come from outside until somebody says
 * otherwise.
 */
export async function beginAuditing(
  tx: FirmTransaction,
  { id, roles }: { id: string; roles: readonly string[] },
  { now, until }: Beginning,
): Promise<void> {
  if (!isOnlyAuditor(roles)) {
    if (until === undefined) return;
    throw invalid("/body/auditUntil", "is for an auditor alone");
  }
  const today = await todayOfFirm(tx, now);
  const [before] = await listAccesses(tx, id, 1);
  if (before && stands(before, today)) return;
  const last = until ?? addPeriod(today, { days: DAYS_USUAL });
  refuseDays({ outside: true, from: today, until: last }, "/body/auditUntil");
  const asked = { outside: true, until: last, scope: {} };
  await giveAccess(tx, id, asked, { personId: await giverFor(tx, id), now });
}

const stands = ({ withdrawnAt, untilOn }: AccessRow, today: string): boolean =>
  withdrawnAt === null && (untilOn === null || untilOn.toISOString().slice(0, 10) >= today);

function refuseDays({ outside, from, until }: Days, at: "/body/until" | "/body/auditUntil"): void {
  if (until === null) {
    if (outside) throw invalid(at, "An auditor from outside needs a last day.");
    return;
  }
  if (until < from) throw invalid(at, "is before the first");
  if (daysBetween(from, until) > DAYS_MOST) {
    throw invalid(at, `must be at most ${DAYS_MOST} days after the first`);
  }
}

interface Days {
  outside: boolean;
  from: string;
  until: string | null;
}

async function refuseUnknown(tx: FirmTransaction, scope: NewAccess["scope"]): Promise<void> {
  const { modelIds = [], siteIds = [] } = scope;
  if ((await modelsNamed(tx, modelIds)).length < modelIds.length) {
    throw invalid("/body/scope/modelIds", "names a product model that your firm does not have");
  }
  if ((await sitesNamed(tx, siteIds)).length < siteIds.length) {
    throw invalid("/body/scope/siteIds", "names a site that your firm does not have");
  }
}

export async function endAccess(
  tx: FirmTransaction,
  personId: string,
  { personId: withdrawnById, now }: Giver,
): Promise<void> {
  if (!(await findPerson(tx, personId))) throw notFound("person");
  if (!(await withdrawAccess(tx, personId, { withdrawnById, withdrawnAt: now }))) {
    throw new Problem("conflict", "There is no access to withdraw.");
  }
}
