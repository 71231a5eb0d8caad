// What sending asks of the browser, so that tests can hand in their own: no test waits for a clock.

export interface Ports {
  fetch(path: string, init: RequestInit): Promise<Response>;
  /** Milliseconds since 1970, by the tablet's clock. */
  now(): number;
  /** Of the page's own clock, which nobody can set: waiting is measured by it. */
  monotonicMs(): number;
  random(): number;
  /** Calls once after a time; returns the way to call it off. */
  after(delayMs: number, call: () => void): () => void;
  /** One sender at a time among the tabs of a browser, where it can do that. */
  locks: Pick<LockManager, "request"> | undefined;
  /** Calls when the network comes back or the page is shown again; returns the way to stop. */
  onReturn(call: () => void): () => void;
}

export const browserPorts = (): Ports => ({
  fetch: (path, init) => fetch(path, init),
  now: () => Date.now(),
  monotonicMs: () => performance.now(),
  random: Math.random,
  after: (delayMs, call) => {
    const timer = setTimeout(call, delayMs);
    return () => clearTimeout(timer);
  },
  locks: globalThis.navigator?.locks,
  onReturn: (call) => {
    const whenShown = (): void => {
      if (document.visibilityState === "visible") call();
    };
    window.addEventListener("online", call);
    document.addEventListener("visibilitychange", whenShown);
    return () => {
      window.removeEventListener("online", call);
      document.removeEventListener("visibilitychange", whenShown);
    };
  },
});
