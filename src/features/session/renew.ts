import type { Database } from "../../db/client.ts";
import { inFirm } from "../../db/scope.ts";
import type { Role } from "../../web/roles.ts";
import type { SessionSubject } from "../../web/session.ts";
import { hashOf, newSecret, partsOf, refreshExpiry } from "./refresh-secret.ts";
import { lacksSecondStep, type OpenedSession } from "./sign-in.ts";
import { findSession, languageOf, revokeSession, rotateSecret } from "./store.ts";

/**
 * A reply lost on the way is asked for again within moments; later, an old secret means a stolen
 * one.
 */
const REPEAT_GRACE_MS = 30_000;

export async function renewSession(
  db: Database,
  refreshToken: string,
): Promise<OpenedSession | undefined> {
  const parts = partsOf(refreshToken);
  if (!parts) return undefined;
  const { firmId, id, secret } = parts;
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
    const expiresAt = refreshExpiry(row.createdAt);
    const to = { secretHash: hashOf(fresh), previousHash: given, expiresAt };
    if (!(await rotateSecret(tx, id, { secretHash: row.secretHash }, to))) return undefined;
    const subject: SessionSubject = {
      firmId,
      personId: row.personId,
      sessionId: id,
      name: row.person.name,
      roles: row.person.roles as Role[],
      epoch: row.person.tokenEpoch,
      language: await languageOf(tx, row.person),
      mustEnrol: await lacksSecondStep(tx, row.person),
    };
    return { subject, refreshToken: `${firmId}.${id}.${fresh}` };
  });
}

/** Ends the session that this refresh token would renew; of another's token nothing comes. */
export async function endByRefreshToken(db: Database, refreshToken: string): Promise<void> {
  const parts = partsOf(refreshToken);
  if (!parts) return;
  const given = hashOf(parts.secret);
  await inFirm(db, parts.firmId, async (tx) => {
    const row = await findSession(tx, parts.id);
    if (row?.secretHash === given || row?.previousHash === given) await revokeSession(tx, parts.id);
  });
}
