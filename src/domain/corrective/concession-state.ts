// Requirement: whoever keeps the register of concessions (ISO 9000: permission to release what does
// not conform) sees which of them count, which are about to end, and which do not count any more.
// A concession counts through its last day by the site's calendar, as in domain/acceptance; thirty
// days ahead are a product rule.
import { Temporal } from "temporal-polyfill";

export const CONCESSION_STATES = ["in-force", "expiring", "expired", "withdrawn"] as const;
export type ConcessionState = (typeof CONCESSION_STATES)[number];

/** Days ahead of its last day, that day included, at which it is told that it ends. */
export const EXPIRING_DAYS = 30;

export interface ConcessionEnds {
  readonly revoked: boolean;
  /** Its last day, plain ("2026-11-25"); null where it holds without an end. */
  readonly expiresOn: string | null;
}

/** How a concession stands on a plain day of its site. */
export function concessionState(
  { revoked, expiresOn }: ConcessionEnds,
  today: string,
): ConcessionState {
  if (revoked) return "withdrawn";
  if (expiresOn === null) return "in-force";
  if (expiresOn < today) return "expired";
  const ahead = Temporal.PlainDate.from(today).add({ days: EXPIRING_DAYS }).toString();
  return expiresOn <= ahead ? "expiring" : "in-force";
}
