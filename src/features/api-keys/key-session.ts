// A request with a key: looked up at most once in ten seconds, and slowed when it asks too often.
import type { Database } from "../../db/client.ts";
import { inFirm } from "../../db/scope.ts";
import { Problem } from "../../errors.ts";
import { isLanguage } from "../../language/languages.ts";
import type { SignedIn } from "../../web/session.ts";
import { readToken, sameHash, secretHash } from "./key-token.ts";
import { findKey, noteUse } from "./store.ts";

const KEPT_MS = 10_000;
const KEPT_MOST = 10_000;
const REQUESTS_A_MINUTE = 600;
const MINUTE_MS = 60_000;

interface Known {
  session: SignedIn | undefined;
  until: number;
}

/** Who asks with a key: undefined for what is no key, or one that opens nothing (any more). */
export function keySessions(db: Database, now: () => Date) {
  const known = new Map<string, Known>();
  const asked = new Map<string, { count: number; since: number }>();
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
    if (session) refuseTooMany(asked, session.sessionId, at);
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

function refuseTooMany(
  asked: Map<string, { count: number; since: number }>,
  id: string,
  at: number,
): void {
  const before = asked.get(id);
  const current = before && at - before.since < MINUTE_MS ? before : { count: 0, since: at };
  current.count += 1;
  if (asked.size >= KEPT_MOST) asked.clear();
  asked.set(id, current);
  if (current.count <= REQUESTS_A_MINUTE) return;
  const retryAfterS = Math.ceil((current.since + MINUTE_MS - at) / 1000);
  const sentence = `A key may ask ${REQUESTS_A_MINUTE} times a minute. Wait ${retryAfterS} s.`;
  throw new Problem("too-many-requests", sentence, { retryAfterS });
}
