import { concessionState } from "../../domain/corrective/concession-state.ts";
import { localDay } from "../../domain/dates/zone-time.ts";
import type { RegisterRow } from "./register-store.ts";

/** How a concession of the register stands, by the calendar of its site. */
export const stateOf = (row: RegisterRow, now: Date) =>
  concessionState(
    { revoked: row.revokedAt !== null, expiresOn: row.expiresOn },
    localDay(now.toISOString(), row.timeZone),
  );

export const shownConcession = (row: RegisterRow, now: Date) => ({
  ...{ id: row.id, jobId: row.jobId, jobReference: row.jobReference, siteId: row.siteId },
  ...{ siteReference: row.siteReference, itemId: row.itemId, itemTitle: row.itemTitle },
  ...{ subject: row.subject, serial: row.serial, reason: row.reason },
  ...{ grantedById: row.grantedById, grantedByName: row.grantedByName },
  ...{ expiresOn: row.expiresOn, revokedByName: row.revokedByName, state: stateOf(row, now) },
  grantedAt: row.grantedAt.toISOString(),
  revokedAt: row.revokedAt?.toISOString() ?? null,
});
