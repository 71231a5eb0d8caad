// Whoever changes what a person signs in with shows first that they are that person: a tablet left
// lying about does not give the account away.
import type { Database } from "../../db/client.ts";
import { inFirm } from "../../db/scope.ts";
import { invalid, notFound } from "../../errors.ts";
import type { SignedIn } from "../../web/session.ts";
import { passwordMatches } from "../session/password.ts";
import { noteFailure, refuseWhenThrottled } from "../session/throttle.ts";
import { findPerson } from "./store.ts";

/** The person, once they have typed their present password; guessing is slowed as at signing in. */
export async function requirePresentPassword(
  db: Database,
  { firmId, personId }: SignedIn,
  presentPassword: string,
  ip: string,
) {
  const person = await inFirm(db, firmId, (tx) => findPerson(tx, personId));
  if (!person) throw notFound("person");
  await refuseWhenThrottled(db, person.email, ip);
  if (!(await passwordMatches(person.passwordHash, presentPassword))) {
    await noteFailure(db, person.email, ip);
    throw invalid("/body/presentPassword", "is not your present password");
  }
  return person;
}
