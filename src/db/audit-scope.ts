// The scope that an auditor's request reads within goes with the request, not through every call:
// the session's hook sets it, `inFirm` hands it to the database, and row-level security leaves out
// what lies outside. Work that nobody's request waits for has none, or the one it was asked for
// with.
import { AsyncLocalStorage } from "node:async_hooks";

interface Within {
  accessId: string | undefined;
  auditorId: string | undefined;
}

const scopes = new AsyncLocalStorage<Within>();

/** Id of the access whose scope holds here; undefined where nothing is left out. */
export const auditScope = (): string | undefined => scopes.getStore()?.accessId;

/** Who reads here as an auditor and nothing else: the database looks up what they may see. */
export const auditorHere = (): string | undefined => scopes.getStore()?.auditorId;

/** Runs `work`, and all that it begins, within that scope, or within whatever the auditor's is. */
export const withinAudit = <T>(
  accessId: string | undefined,
  work: () => T,
  auditorId?: string,
): T => scopes.run({ accessId, auditorId }, work);

/**
 * The same pieces, each fetched within the scope that holds now: what leaves as a stream is fetched
 * when the receiver is ready, and by then nothing says whose request it was.
 */
export function inSameScope<T>(pieces: AsyncIterable<T>): AsyncIterable<T> {
  const here = AsyncLocalStorage.snapshot();
  return {
    [Symbol.asyncIterator]: () => {
      const all = here(() => pieces[Symbol.asyncIterator]());
      return {
        next: () => here(() => all.next()),
        return: async (value) =>
          all.return ? here(() => all.return?.(value) as never) : { done: true, value },
      };
    },
  };
}
