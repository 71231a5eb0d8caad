// What each way to ask how the service stands goes through: the token, and one look at a time.
import type { App, Context } from "../../web/feature.ts";
import { type Readiness, readReadiness } from "./readiness.ts";
import { tellChanges } from "./readiness-log.ts";
import { readStanding, type Standing } from "./standing.ts";
import { type TokenGuard, tokenGuard } from "./token.ts";

export interface Desk {
  guard: TokenGuard;
  readiness(): Promise<Readiness>;
  standing(): Promise<Standing>;
}

export function openDesk(app: App, { db, config, now, queue }: Context): Desk {
  const tell = tellChanges(app.log);
  const failed = (error: unknown): void => app.log.error({ err: error }, "standing not read");
  const { dataFolder } = config;
  const readiness = async (): Promise<Readiness> => {
    const found = await readReadiness({ isDraining: app.isDraining, db, dataFolder, queue });
    tell(found.reasons);
    return found;
  };
  return {
    guard: tokenGuard(config, now),
    readiness,
    standing: async () => readStanding({ db, config, now: now(), failed }, await readiness()),
  };
}
