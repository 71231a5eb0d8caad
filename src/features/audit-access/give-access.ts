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
  refuseDays({ outside, from, until });
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

/** Whoever is invited as an auditor comes from outside until somebody says otherwise. */
export async function giveUsualAccess(
  tx: FirmTransaction,
  personId: string,
  giver: Giver,
): Promise<void> {
  const until = addPeriod(await todayOfFirm(tx, giver.now), { days: DAYS_USUAL });
  await giveAccess(tx, personId, { outside: true, until, scope: {} }, giver);
}

function refuseDays({ outside, from, until }: Days): void {
  if (until === null) {
    if (outside) throw invalid("/body/until", "An auditor from outside needs a last day.");
    return;
  }
  if (until < from) throw invalid("/body/until", "is before the first");
  if (daysBetween(from, until) > DAYS_MOST) {
    throw invalid("/body/until", `must be at most ${DAYS_MOST} days after the first`);
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
