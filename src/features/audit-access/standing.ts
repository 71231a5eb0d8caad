// What limits an auditor at a moment: looked up with the session, judged at each request, since an
// access ends by the clock and not by anything that anybody does.
import { localDay } from "../../domain/dates/zone-time.ts";
import type { AuditStanding } from "../../web/session.ts";

/** The latest access of an auditor, as far as requests are held against it. */
export interface AccessLimits {
  accessId: string;
  isScoped: boolean;
  /** First and last day, by the firm's calendar. */
  fromOn: string;
  untilOn: string | null;
  withdrawnAt: Date | null;
  /** Whom to ask: who gave it, or withdrew it. */
  contact: { name: string; email: string };
  firm: { name: string; timeZone: string };
}

export function standingOf(limits: AccessLimits | undefined, now: Date): AuditStanding {
  if (!limits) return {};
  const { accessId, isScoped, untilOn } = limits;
  const refusal = refusalOf(limits, now);
  return {
    ...{ untilOn: untilOn ?? undefined, refusal },
    scope: isScoped ? accessId : undefined,
  };
}

function refusalOf(limits: AccessLimits, now: Date): string | undefined {
  const { fromOn, untilOn, withdrawnAt, contact, firm } = limits;
  const day = (moment: Date) => localDay(moment.toISOString(), firm.timeZone);
  const whom = `${contact.name} (${contact.email})`;
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
