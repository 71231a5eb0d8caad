import type { Database } from "../../db/client.ts";
import { inFirm } from "../../db/scope.ts";
import { invalid, notFound } from "../../errors.ts";
import type { SignedIn } from "../../web/session.ts";
import { hashPassword, passwordMatches } from "../session/password.ts";
import { revokeAllSessions } from "../session/store.ts";
import { noteFailure, refuseWhenThrottled } from "../session/throttle.ts";
import { findPerson, revokeOtherSessions, setPasswordHash } from "./store.ts";

/** A password that repeats what everybody knows of its person is the first that is guessed. */
export function refuseTellingPassword(
  password: string,
  person: { email: string; name: string },
): void {
  const typed = plain(password);
  if (typed === plain(person.email) || typed === plain(person.name)) {
    throw invalid("/body/password", "must not be the person's own e-mail address or name");
  }
}

const plain = (text: string): string => text.normalize("NFKC").trim().toLowerCase();

/** Needs the present password, so that a tablet left lying about does not give the account away. */
export async function setOwnPassword(
  db: Database,
  session: SignedIn,
  typed: { presentPassword: string; password: string },
  ip: string,
): Promise<void> {
  const { firmId, personId, sessionId } = session;
  const person = await inFirm(db, firmId, (tx) => findPerson(tx, personId));
  if (!person) throw notFound("person");
  await refuseWhenThrottled(db, person.email, ip);
  if (!(await passwordMatches(person.passwordHash, typed.presentPassword))) {
    await noteFailure(db, person.email, ip);
    throw invalid("/body/presentPassword", "is not your present password");
  }
  refuseTellingPassword(typed.password, person);
  const passwordHash = await hashPassword(typed.password);
  await inFirm(db, firmId, async (tx) => {
    await setPasswordHash(tx, personId, passwordHash);
    await revokeOtherSessions(tx, personId, sessionId);
  });
}

/** For whoever forgot theirs: an owner sets another, and every session of the person ends. */
export async function resetPassword(
  db: Database,
  firmId: string,
  personId: string,
  password: string,
): Promise<void> {
  const person = await inFirm(db, firmId, (tx) => findPerson(tx, personId));
  if (!person) throw notFound("person");
  refuseTellingPassword(password, person);
  const passwordHash = await hashPassword(password);
  await inFirm(db, firmId, async (tx) => {
    await setPasswordHash(tx, personId, passwordHash);
    await revokeAllSessions(tx, personId);
  });
}
