// Long work that was asked for here is done here, one piece after the other, and stops with the
// server; the scheduled runs take up what another process left.
import { withinAudit } from "../db/audit-scope.ts";
import type { App, Context } from "./feature.ts";

export interface Background {
  /** Begins as soon as what was begun before is done. */
  start(firmId: string, id: string): void;
}

export interface Piece {
  firmId: string;
  id: string;
  stop: AbortSignal;
}

const known = new WeakMap<Context, Map<string, Background>>();

/**
 * The one of this server for this kind of work.
 * @param fault words for the log when a piece fails; they name the kind too
 */
export function backgroundOf(
  app: App,
  context: Context,
  fault: string,
  work: (piece: Piece) => Promise<unknown>,
): Background {
  const own = known.get(context) ?? new Map<string, Background>();
  known.set(context, own);
  const before = own.get(fault);
  if (before) return before;
  const stop = new AbortController();
  let last: Promise<unknown> = Promise.resolve();
  const background: Background = {
    start: (firmId, id) => {
      // Not within the scope of whoever asks: it may be another's piece that comes next.
      const begin = () => (stop.signal.aborted ? false : work({ firmId, id, stop: stop.signal }));
      last = last
        .then(() => withinAudit(undefined, begin))
        .catch((error: unknown) => app.log.error({ err: error, id }, fault));
    },
  };
  app.addHook("onClose", async () => {
    stop.abort();
    await last;
  });
  own.set(fault, background);
  return background;
}
