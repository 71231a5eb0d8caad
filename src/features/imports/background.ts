// Imports that were started here are worked on here, one after the other; the scheduled run takes
// up what another process left.
import type { App, Context } from "../../web/feature.ts";
import type { Desk } from "./task.ts";
import { workOn } from "./work.ts";

export interface Background {
  /** Begins as soon as what was begun before is done. */
  start(firmId: string, importId: string): void;
}

const known = new WeakMap<Context, Background>();

/** The one of this server; it stops with it. */
export function backgroundOf(app: App, context: Context): Background {
  const before = known.get(context);
  if (before) return before;
  const stop = new AbortController();
  let last: Promise<unknown> = Promise.resolve();
  const deskOf = (firmId: string): Desk => ({
    ...{ db: context.db, dataFolder: context.config.dataFolder, firmId, now: context.now },
    onFault: (error, importId) => app.log.error({ err: error, importId }, "an import failed"),
    stop: stop.signal,
  });
  const background: Background = {
    start: (firmId, importId) => {
      last = last
        .then(() => (stop.signal.aborted ? false : workOn(deskOf(firmId), importId)))
        .catch((error: unknown) => app.log.error({ err: error, importId }, "an import failed"));
    },
  };
  app.addHook("onClose", async () => {
    stop.abort();
    await last;
  });
  known.set(context, background);
  return background;
}
