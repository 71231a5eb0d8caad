// A request with a key: looked up at most once in ten seconds, and slowed when it asks too often.
import type { Database } from "../../db/client.ts";
import { inFirm } from "../../db/scope.ts";
import { isLanguage } from "../../language/languages.ts";
import type { SignedIn } from "../../web/session.ts";
import { slowDown } from "../../web/slow-down.ts";
import { readToken, sameHash, secretHash } from "./key-token.ts";
import { findKey, noteUse } from "./store.ts";

const KEPT_MS = 10_000;
const KEPT_MOST = 10_000;
const REQUESTS_A_MINUTE = 600;

interface Known {
  session: SignedIn | undefined;
  until: number;
}

/** Who asks with a key: undefined for what is no key, or one that opens nothing (any more). */
export function keySessions(db: Database, now: () => Date) {
  const known = new Map<string, Known>();
  const slow = slowDown("A key", REQUESTS_A_MINUTE);
  return async (text: string): Promise<SignedIn | undefined> => {
    const token = readToken(text);
    if (!token) return undefined;
    const at = now().getTime();
    const hash = secretHash(text);
    const kept = known.get(hash);
    const session = kept && kept.until > at ? kept.session : await look(db, token, now());
    if (!kept || kept.until <= at) {
      if (known.size >= KEPT_MOST) known.clear();
      known.set(hash, { session, until: at + KEPT_MS });
    }
    if (session) slow(session.sessionId, at);
    return session;
  };
}

async function look(
  db: Database,
  { firmId, keyId, secret }: NonNullable<ReturnType<typeof readToken>>,
  now: Date,
): Promise<SignedIn | undefined> {
  return inFirm(db, firmId, async (tx) => {
    const row = await findKey(tx, keyId);
    const stands =
      row &&
      row.revokedAt === null &&
      (row.expiresAt === null || row.expiresAt > now) &&
      row.createdBy.active &&
      sameHash(row.secretHash, secretHash(secret));
    if (!stands) return undefined;
    await noteUse(tx, keyId, now);
    const { language } = row.createdBy;
    return {
      ...{ firmId, personId: row.createdById, sessionId: row.id, name: row.name },
      ...{ roles: [], epoch: 0, via: "bearer", scopes: row.scopes },
      language: isLanguage(language) ? language : "en",
    };
  });
}
