import type { Database } from "../../db/client.ts";
import type { AuditStanding } from "../../web/audit-standing.ts";
import type { SessionSubject } from "../../web/session.ts";
import { type AccessLimits, standingOf } from "../audit-access/standing.ts";
import { sessionStands } from "./store.ts";

const KEPT_MS = 10_000;
const KEPT_MOST = 10_000;

export interface Liveness {
  /** Undefined where the session stands no more; else what limits it at this moment. */
  standing(session: SessionSubject): Promise<AuditStanding | undefined>;
  /** After a sign-out here: the next request asks the database again. */
  forget(): void;
}

interface Known {
  live: boolean;
  limits: AccessLimits | undefined;
}

/** Whether sessions stand, asked of the database at most once in ten seconds each. */
export function sessionLiveness(db: Database, now: () => Date): Liveness {
  const kept = new Map<string, Known & { until: number }>();
  const look = async (session: SessionSubject): Promise<Known> => {
    const key = `${session.sessionId}:${session.epoch}`;
    const known = kept.get(key);
    if (known && known.until > Date.now()) return known;
    const found = await sessionStands(db, session);
    if (kept.size >= KEPT_MOST) kept.clear();
    kept.set(key, { ...found, until: Date.now() + KEPT_MS });
    return found;
  };
  return {
    standing: async (session) => {
      const { live, limits } = await look(session);
      return live ? standingOf(limits, now()) : undefined;
    },
    forget: () => kept.clear(),
  };
}
