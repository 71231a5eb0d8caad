import type { Database } from "../../db/client.ts";
import { inFirmAs } from "../../db/scope.ts";
import type { SignedIn } from "../../web/session.ts";
import { openJob } from "../jobs/open-job.ts";
import type { NewJob } from "../jobs/schemas.ts";
import { bookVisit, tellingConflicts } from "../visits/book-visit.ts";
import type { NewVisit } from "../visits/schemas.ts";

/** Opens the job and books its first visit, or neither. */
export function openWithVisit(
  db: Database,
  session: SignedIn,
  fields: NewJob,
  visit: NewVisit | undefined,
  now: Date,
): Promise<string> {
  return tellingConflicts(db, session.firmId, (wanted) =>
    inFirmAs(db, session, async (tx) => {
      const id = await openJob(tx, fields, session.personId, now);
      if (visit) await bookVisit(tx, id, visit, wanted);
      return id;
    }),
  );
}
