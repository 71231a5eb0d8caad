// Setting up the second step: begun with the password, confirmed with the first code, and from then
// on no other session goes on that was opened without it.
import type { Database } from "../../db/client.ts";
import { inFirm } from "../../db/scope.ts";
import type { SignedIn } from "../../web/session.ts";
import { requirePresentPassword } from "../people/present-password.ts";
import { revokeOtherSessions } from "../people/store.ts";
import { beginEnrolment, finishEnrolment } from "./second-step.ts";

export async function beginWithPassword(
  db: Database,
  dataFolder: string,
  session: SignedIn,
  { presentPassword, ip }: { presentPassword: string; ip: string },
): Promise<{ secret: string; uri: string }> {
  await requirePresentPassword(db, session, presentPassword, ip);
  const { firmId, personId } = session;
  return inFirm(db, firmId, (tx) => beginEnrolment(tx, dataFolder, personId));
}

export async function confirmAndEndOthers(
  db: Database,
  dataFolder: string,
  { firmId, personId, sessionId }: SignedIn,
  { code, now }: { code: string; now: Date },
): Promise<string[]> {
  return inFirm(db, firmId, async (tx) => {
    const recoveryCodes = await finishEnrolment(tx, dataFolder, { personId, code }, now);
    await revokeOtherSessions(tx, personId, sessionId);
    return recoveryCodes;
  });
}
