import { uuidv7 } from "uuidv7";
import type { Database } from "../../db/client.ts";
import { type FirmTransaction, inFirm } from "../../db/scope.ts";
import { Problem } from "../../errors.ts";
import type { SessionSubject } from "../../web/session.ts";
import { limitsOf } from "../audit-access/limits.ts";
import { refusedToSignIn } from "../audit-access/standing.ts";
import { passesSecondStep } from "../two-step/second-step.ts";
import { twoStepRoles } from "../two-step/store.ts";
import { refuseWornOut } from "./given-password.ts";
import { hashPassword, isOutdated, passwordMatches } from "./password.ts";
import { hashOf, newSecret, refreshExpiry } from "./refresh-secret.ts";
import {
  findPersonByEmail,
  languageOf,
  openSession,
  replaceHash,
  type SignInPerson,
} from "./store.ts";
import { noteFailure, noteSuccess, refuseWhenThrottled } from "./throttle.ts";

export interface OpenedSession {
  subject: SessionSubject;
  refreshToken: string;
}

export interface Credentials {
  email: string;
  password: string;
  ip: string;
  userAgent?: string;
  /** Of the second step, where there is one. */
  code?: string | undefined;
}

export interface SignInGround {
  dataFolder: string;
  now(): Date;
}

/** Opens a session; where the person has set up a second step, only with a code of it. */
export async function signIn(
  db: Database,
  credentials: Credentials,
  ground: SignInGround,
): Promise<OpenedSession> {
  const person = await checkPassword(db, credentials, ground.now());
  if (person.totpConfirmedAt !== null) {
    const { code } = credentials;
    if (code === undefined) {
      const sentence = "Send the code that your authenticator shows, or a recovery code.";
      throw new Problem("second-step-needed", sentence);
    }
    await checkCode(db, person, { ...credentials, code }, ground);
  }
  await noteSuccess(db, credentials.email);
  return openFor(db, person, credentials.userAgent, ground.now());
}

/** The person with this address and password; nobody learns which of the two was wrong. */
export async function checkPassword(
  db: Database,
  { email, password, ip }: Pick<Credentials, "email" | "password" | "ip">,
  now: Date,
): Promise<SignInPerson> {
  await refuseWhenThrottled(db, email, ip);
  const person = await findPersonByEmail(db, email);
  const matches = await passwordMatches(person?.passwordHash ?? null, password);
  if (person && matches && person.active) {
    refuseWornOut(person.passwordGivenAt, now);
    await keepUpToDate(db, person, password);
    return person;
  }
  await noteFailure(db, email, ip);
  throw new Problem("sign-in-refused", "Address or password is wrong.");
}

/** Where the hash of today is a stronger one, it is taken as soon as the password is known. */
async function keepUpToDate(db: Database, person: SignInPerson, password: string): Promise<void> {
  const { firmId, id, passwordHash } = person;
  if (passwordHash === null || !isOutdated(passwordHash)) return;
  const fresh = await hashPassword(password);
  await inFirm(db, firmId, (tx) => replaceHash(tx, id, passwordHash, fresh));
}

/** The second of the two steps, slowed for those who guess as the first one is. */
export async function checkCode(
  db: Database,
  person: { firmId: string; id: string },
  { email, ip, code }: { email: string; ip: string; code: string },
  { dataFolder, now }: SignInGround,
): Promise<void> {
  await refuseWhenThrottled(db, email, ip);
  const who = { firmId: person.firmId, personId: person.id };
  if (await passesSecondStep(db, dataFolder, who, code, now())) return;
  await noteFailure(db, email, ip);
  throw new Problem("sign-in-refused", "This is not the code that is shown now, nor one unused.");
}

/** A session of its own for a person who has shown who they are. */
export async function openFor(
  db: Database,
  person: SignInPerson,
  userAgent: string | undefined,
  now: Date,
): Promise<OpenedSession> {
  const id = uuidv7();
  const secret = newSecret();
  const { language, mustEnrol } = await inFirm(db, person.firmId, async (tx) => {
    const refusal = refusedToSignIn(await limitsOf(tx, person), now);
    if (refusal !== undefined) throw new Problem("access-ended", refusal);
    await openSession(tx, {
      ...{ id, personId: person.id, secretHash: hashOf(secret), expiresAt: refreshExpiry() },
      ...(userAgent ? { userAgent: userAgent.slice(0, 200) } : {}),
    });
    return { language: await languageOf(tx, person), mustEnrol: await lacksSecondStep(tx, person) };
  });
  return {
    subject: {
      ...{ firmId: person.firmId, personId: person.id, sessionId: id, name: person.name },
      ...{ roles: person.roles, epoch: person.tokenEpoch, language, mustEnrol },
    },
    refreshToken: `${person.firmId}.${id}.${secret}`,
  };
}

/** Whether the firm asks for a second step that the person has not set up. */
export async function lacksSecondStep(
  tx: FirmTransaction,
  { totpConfirmedAt, roles }: { totpConfirmedAt: Date | null; roles: readonly string[] },
): Promise<boolean> {
  if (totpConfirmedAt !== null) return false;
  const wanted = await twoStepRoles(tx);
  return roles.some((role) => wanted.includes(role));
}
