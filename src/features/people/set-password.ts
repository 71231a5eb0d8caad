import type { Database } from "../../db/client.ts";
import { inFirm } from "../../db/scope.ts";
import { invalid, notFound } from "../../errors.ts";
import type { SignedIn } from "../../web/session.ts";
import { hashPassword } from "../session/password.ts";
import { revokeAllSessions } from "../session/store.ts";
import { refuseGuessablePassword } from "./guessable-password.ts";
import { requirePresentPassword } from "./present-password.ts";
import { findPerson, revokeOtherSessions, setPasswordHash } from "./store.ts";

export async function setOwnPassword(
  db: Database,
  session: SignedIn,
  typed: { presentPassword: string; password: string },
  ip: string,
): Promise<void> {
  const { firmId, personId, sessionId } = session;
  const person = await requirePresentPassword(db, session, typed.presentPassword, ip);
  await refuseGuessablePassword(typed.password, person);
  if (person.passwordGivenAt && typed.password === typed.presentPassword) {
    throw invalid("/body/password", "is the one that was given to you: choose another");
  }
  const passwordHash = await hashPassword(typed.password);
  await inFirm(db, firmId, async (tx) => {
    await setPasswordHash(tx, personId, passwordHash);
    await revokeOtherSessions(tx, personId, sessionId);
  });
}

/** For whoever forgot theirs: an owner gives another, and every session of the person ends. */
export async function resetPassword(
  db: Database,
  firmId: string,
  personId: string,
  password: string,
  now: Date,
): Promise<void> {
  const person = await inFirm(db, firmId, (tx) => findPerson(tx, personId));
  if (!person) throw notFound("person");
  await refuseGuessablePassword(password, person);
  const passwordHash = await hashPassword(password);
  await inFirm(db, firmId, async (tx) => {
    await setPasswordHash(tx, personId, passwordHash, now);
    await revokeAllSessions(tx, personId);
  });
}
