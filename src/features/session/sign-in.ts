import { createHash, randomBytes } from "node:crypto";
import { uuidv7 } from "uuidv7";
import type { Database } from "../../db/client.ts";
import { inFirm } from "../../db/scope.ts";
import { Problem } from "../../errors.ts";
import type { Role } from "../../web/roles.ts";
import { REFRESH_LIFE_S, type SessionSubject } from "../../web/session.ts";
import { passwordMatches } from "./password.ts";
import {
  findPersonByEmail,
  findSession,
  languageOf,
  openSession,
  revokeSession,
  rotateSecret,
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
}

export async function signIn(db: Database, credentials: Credentials): Promise<OpenedSession> {
  const { email, password, ip } = credentials;
  await refuseWhenThrottled(db, email, ip);
  const person = await findPersonByEmail(db, email);
  const matches = await passwordMatches(person?.passwordHash ?? null, password);
  if (!person || !matches || !person.active) {
    await noteFailure(db, email, ip);
    throw new Problem("sign-in-refused", "Address or password is wrong.");
  }
  await noteSuccess(db, email);
  const id = uuidv7();
  const secret = newSecret();
  const language = await inFirm(db, person.firmId, async (tx) => {
    await openSession(tx, {
      id,
      personId: person.id,
      secretHash: hashOf(secret),
      expiresAt: refreshExpiry(),
      ...(credentials.userAgent ? { userAgent: credentials.userAgent.slice(0, 200) } : {}),
    });
    return languageOf(tx, person);
  });
  return {
    subject: {
      firmId: person.firmId,
      personId: person.id,
      sessionId: id,
      name: person.name,
      roles: person.roles,
      epoch: person.tokenEpoch,
      language,
    },
    refreshToken: `${person.firmId}.${id}.${secret}`,
  };
}

/**
 * A reply lost on the way is asked for again within moments; later, an old secret means a stolen
 * one.
 */
const REPEAT_GRACE_MS = 30_000;

export async function renewSession(
  db: Database,
  refreshToken: string,
): Promise<OpenedSession | undefined> {
  const [firmId, id, secret] = refreshToken.split(".");
  if (!isId(firmId) || !isId(id) || !secret) return undefined;
  return inFirm(db, firmId, async (tx) => {
    const row = await findSession(tx, id);
    if (!row || row.revokedAt || row.expiresAt.getTime() < Date.now() || !row.person.active) {
      return undefined;
    }
    const given = hashOf(secret);
    const repeated =
      row.previousHash === given && Date.now() - row.rotatedAt.getTime() < REPEAT_GRACE_MS;
    if (row.secretHash !== given && !repeated) {
      await revokeSession(tx, id);
      return undefined;
    }
    const fresh = newSecret();
    const to = { secretHash: hashOf(fresh), previousHash: given, expiresAt: refreshExpiry() };
    if (!(await rotateSecret(tx, id, { secretHash: row.secretHash }, to))) return undefined;
    const subject: SessionSubject = {
      firmId,
      personId: row.personId,
      sessionId: id,
      name: row.person.name,
      roles: row.person.roles as Role[],
      epoch: row.person.tokenEpoch,
      language: await languageOf(tx, row.person),
    };
    return { subject, refreshToken: `${firmId}.${id}.${fresh}` };
  });
}

const isId = (text: string | undefined): text is string =>
  /^[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$/.test(text ?? "");
const newSecret = (): string => randomBytes(32).toString("base64url");
const hashOf = (secret: string): string => createHash("sha256").update(secret).digest("hex");
const refreshExpiry = (): Date => new Date(Date.now() + REFRESH_LIFE_S * 1000);
