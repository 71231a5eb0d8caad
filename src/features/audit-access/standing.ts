// What limits an auditor at a moment: looked up with the session, judged at each request, since an
// access ends by the clock and not by anything that anybody does.
import { daysBetween } from "../../domain/dates/plain-date.ts";
import { localDay } from "../../domain/dates/zone-time.ts";
import type { AuditStanding, AuditWithin } from "../../web/audit-standing.ts";

/** Of somebody who is an auditor and nothing else, as far as requests are held against it. */
export interface AccessLimits {
  personId: string;
  /** The latest that was given; undefined where none ever was, and then nothing is seen. */
  access: GivenAccess | undefined;
  /** Whom to ask: who gave it, or withdrew it, or an owner. */
  contact: { name: string; email: string };
  firm: { name: string; timeZone: string };
}

export interface GivenAccess {
  id: string;
  isScoped: boolean;
  /** First and last day, by the firm's calendar. */
  fromOn: string;
  untilOn: string | null;
  withdrawnAt: Date | null;
  within: AuditWithin;
}

export function standingOf(limits: AccessLimits | undefined, now: Date): AuditStanding {
  if (!limits) return {};
  const { personId: auditorId, access } = limits;
  return {
    ...{ auditorId, untilOn: access?.untilOn ?? undefined, refusal: refusalOf(limits, now) },
    scope: access?.isScoped ? access.id : undefined,
    within: access?.within,
    daysLeft: access?.untilOn
      ? daysBetween(localDay(now.toISOString(), limits.firm.timeZone), access.untilOn)
      : undefined,
  };
}

/** Why the person cannot sign in now. To whom nothing was given may, and is told whom to ask. */
export const refusedToSignIn = (limits: AccessLimits | undefined, now: Date): string | undefined =>
  limits?.access ? refusalOf(limits, now) : undefined;

function refusalOf(limits: AccessLimits, now: Date): string | undefined {
  const { access, contact, firm } = limits;
  const day = (moment: Date) => localDay(moment.toISOString(), firm.timeZone);
  const whom = `${contact.name} (${contact.email})`;
  if (!access) {
    return `No access to ${firm.name} was given to you. Ask ${whom} for one.`;
  }
  const { fromOn, untilOn, withdrawnAt } = access;
  if (withdrawnAt !== null) {
    const on = day(withdrawnAt);
    return `Your access to ${firm.name} was withdrawn on ${on}. Ask ${whom} for a new one.`;
  }
  if (untilOn !== null && day(now) > untilOn) {
    return `Your access to ${firm.name} ended on ${untilOn}. Ask ${whom} for a new one.`;
  }
  if (day(now) < fromOn) {
    return `Your access to ${firm.name} begins on ${fromOn}. Ask ${whom} to have it sooner.`;
  }
  return undefined;
}
