import type { Database } from "../../db/client.ts";
import { sessionStands } from "./store.ts";

const KEPT_MS = 10_000;
const KEPT_MOST = 10_000;

export interface Liveness {
  isLive(session: { firmId: string; sessionId: string; epoch: number }): Promise<boolean>;
  /** After a sign-out here: the next request asks the database again. */
  forget(): void;
}

/** Whether sessions stand, asked of the database at most once in ten seconds each. */
export function sessionLiveness(db: Database): Liveness {
  const kept = new Map<string, { live: boolean; until: number }>();
  return {
    isLive: async (session) => {
      const key = `${session.sessionId}:${session.epoch}`;
      const known = kept.get(key);
      if (known && known.until > Date.now()) return known.live;
      const live = await sessionStands(db, session);
      if (kept.size >= KEPT_MOST) kept.clear();
      kept.set(key, { live, until: Date.now() + KEPT_MS });
      return live;
    },
    forget: () => kept.clear(),
  };
}
