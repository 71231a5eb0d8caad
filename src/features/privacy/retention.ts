// Requirement: personal data is kept no longer than it is needed (Regulation (EU) 2016/679,
// Article 5(1)(e)): how long that is, each firm says; what is older goes by itself.
import type { FirmTransaction } from "../../db/scope.ts";
import { addPeriod } from "../../domain/dates/period.ts";
import { dayBounds } from "../../domain/dates/zone-time.ts";
import { RETENTION_KINDS, type Retention, type RetentionKind } from "./schemas.ts";
import { readRetention } from "./store.ts";

/** Every kind with its months; null, for good. */
export async function allPeriods(tx: FirmTransaction): Promise<Retention> {
  const periods = await readRetention(tx);
  return Object.fromEntries(
    RETENTION_KINDS.map((kind) => [kind, periods[kind] ?? null]),
  ) as unknown as Retention;
}

/** The beginning of the day before which something kept for so many months is over. */
export const overBefore = (today: string, months: number, timeZone: string): Date =>
  new Date(dayBounds(addPeriod(today, { months: -months }), timeZone).start);

/** Kinds that go by themselves; a customer is erased by a person. */
export const FORGOTTEN: readonly RetentionKind[] = ["mails", "messages", "changes"];
