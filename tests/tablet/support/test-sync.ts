// Sending with every clock in the test's hand.
import type { Sync } from "../../../src/tablet/contract.ts";
import type { TabletStore } from "../../../src/tablet/store/sending.ts";
import { createSync, type SyncOptions } from "../../../src/tablet/sync/sync.ts";
import type { TestTablet } from "./test-tablet.ts";

export interface TestSync extends Sync {
  /** Lets time go by: what was to be called after it, is called. */
  pass(ms: number): void;
  /** The network comes back, or the page is shown again. */
  comeBack(): void;
}

type Timers = Set<{ at: number; call: () => void }>;
type Calls = Set<() => void>;

export function testSync(
  tablet: TestTablet,
  store: TabletStore,
  fetch: NonNullable<SyncOptions["fetch"]>,
  more: SyncOptions = {},
): TestSync {
  const timers: Timers = new Set();
  const returns: Calls = new Set();
  const sync = createSync(store, { fetch, ...ports(tablet, timers, returns), ...more });
  return {
    status: () => sync.status(),
    round: () => sync.round(),
    signIn: (email, password, code) => sync.signIn(email, password, code),
    signOut: () => sync.signOut(),
    start: () => sync.start(),
    stop: () => sync.stop(),
    onChange: (listener) => sync.onChange(listener),
    pass: (ms) => pass(tablet, timers, ms),
    comeBack: () => {
      for (const call of [...returns]) call();
    },
  };
}

const ports = (tablet: TestTablet, timers: Timers, returns: Calls): SyncOptions => ({
  now: tablet.now,
  monotonicMs: () => tablet.monotonicMs,
  random: () => 0.5,
  after: (delayMs, call) => {
    const timer = { at: tablet.monotonicMs + delayMs, call };
    timers.add(timer);
    return () => timers.delete(timer);
  },
  locks: undefined,
  onReturn: (call) => {
    returns.add(call);
    return () => returns.delete(call);
  },
});

function pass(tablet: TestTablet, timers: Timers, ms: number): void {
  tablet.monotonicMs += ms;
  tablet.clockMs += ms;
  for (const timer of [...timers].filter(({ at }) => at <= tablet.monotonicMs)) {
    timers.delete(timer);
    timer.call();
  }
}
