import type { Database } from "../../db/client.ts";
import { type FirmTransaction, inFirm } from "../../db/scope.ts";
import { isLanguage, type Language } from "../../language/languages.ts";
import type { Role } from "../../web/roles.ts";
import { limitsOf } from "../audit-access/limits.ts";
import type { AccessLimits } from "../audit-access/standing.ts";

export interface SignInPerson {
  firmId: string;
  id: string;
  name: string;
  roles: Role[];
  passwordHash: string | null;
  passwordGivenAt: Date | null;
  active: boolean;
  tokenEpoch: number;
  language: string | null;
  totpConfirmedAt: Date | null;
}

/** The person's own language, or else the firm's. */
export async function languageOf(
  tx: FirmTransaction,
  person: { language: string | null },
): Promise<Language> {
  if (isLanguage(person.language)) return person.language;
  const { language } = await tx.firm.findUniqueOrThrow({ where: { id: tx.firmId } });
  return isLanguage(language) ? language : "en";
}

/** Before any firm is known: the one person with this address, seen through a policy of its own. */
export async function findPersonByEmail(
  db: Database,
  email: string,
): Promise<SignInPerson | undefined> {
  return db.prisma.$transaction(async (tx) => {
    await tx.$executeRaw`SELECT set_config('app.sign_in_email', ${email}, true)`;
    const person = await tx.person.findUnique({ where: { email } });
    return person ? { ...person, roles: person.roles as Role[] } : undefined;
  });
}

/** Keeps the same password by another hash, unless it was changed meanwhile. */
export async function replaceHash(
  tx: FirmTransaction,
  id: string,
  from: string,
  to: string,
): Promise<void> {
  await tx.person.updateMany({
    where: { firmId: tx.firmId, id, passwordHash: from },
    data: { passwordHash: to },
  });
}

export async function openSession(
  tx: FirmTransaction,
  session: {
    id: string;
    personId: string;
    secretHash: string;
    userAgent?: string;
    expiresAt: Date;
  },
): Promise<void> {
  await tx.session.create({ data: { firmId: tx.firmId, ...session } });
}

export async function findSession(tx: FirmTransaction, id: string) {
  return tx.session.findUnique({
    where: { firmId_id: { firmId: tx.firmId, id } },
    include: { person: true },
  });
}

/** Swaps the secret, if nobody else did so first. */
export async function rotateSecret(
  tx: FirmTransaction,
  id: string,
  from: { secretHash: string },
  to: { secretHash: string; previousHash: string; expiresAt: Date },
): Promise<boolean> {
  const { count } = await tx.session.updateMany({
    where: { firmId: tx.firmId, id, secretHash: from.secretHash, revokedAt: null },
    data: { ...to, rotatedAt: new Date() },
  });
  return count === 1;
}

export async function revokeSession(tx: FirmTransaction, id: string): Promise<void> {
  await tx.session.updateMany({
    where: { firmId: tx.firmId, id, revokedAt: null },
    data: { revokedAt: new Date() },
  });
}

/** Ends every session of the person at once, those on lost devices too. */
export async function revokeAllSessions(tx: FirmTransaction, personId: string): Promise<void> {
  await tx.session.updateMany({
    where: { firmId: tx.firmId, personId, revokedAt: null },
    data: { revokedAt: new Date() },
  });
  await tx.person.updateMany({
    where: { firmId: tx.firmId, id: personId },
    data: { tokenEpoch: { increment: 1 } },
  });
}

/** Whether it stands, and of an auditor what their access is limited to. */
export async function sessionStands(
  db: Database,
  session: { firmId: string; sessionId: string; epoch: number },
): Promise<{ live: boolean; limits: AccessLimits | undefined }> {
  return inFirm(db, session.firmId, async (tx) => {
    const row = await findSession(tx, session.sessionId);
    const live =
      row !== null &&
      row.revokedAt === null &&
      row.person.active &&
      row.person.tokenEpoch === session.epoch;
    return { live, limits: live ? await limitsOf(tx, row.person) : undefined };
  });
}

export interface FailureCount {
  failures: number;
  windowStart: Date;
}

export async function readFailures(db: Database, keys: string[]): Promise<FailureCount[]> {
  const { rows } = await db.pool.query<FailureCount>(
    `SELECT failures, window_start AS "windowStart" FROM sign_in_throttle WHERE key = ANY($1)`,
    [keys],
  );
  return rows;
}

/** Counts one failure; a window that has run out starts anew. */
export async function countFailure(db: Database, keys: string[], windowMs: number): Promise<void> {
  await db.pool.query(
    `INSERT INTO sign_in_throttle AS t (key, failures, window_start)
     SELECT k, 1, now() FROM unnest($1::text[]) k
     ON CONFLICT (key) DO UPDATE SET
       failures = CASE WHEN t.window_start < now() - $2 * interval '1 ms' THEN 1 ELSE t.failures + 1 END,
       window_start = CASE WHEN t.window_start < now() - $2 * interval '1 ms' THEN now() ELSE t.window_start END`,
    [keys, windowMs],
  );
}

export async function forgetFailures(db: Database, key: string): Promise<void> {
  await db.pool.query("DELETE FROM sign_in_throttle WHERE key = $1", [key]);
}
