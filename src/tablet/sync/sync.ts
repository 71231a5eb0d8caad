// Sends what waits and fetches what comes next, by itself while there is signal, and when asked.
import type { Profile, Sync, SyncStatus } from "../contract.ts";
import { phrase } from "../language/spoken.ts";
import type { TabletStore } from "../store/sending.ts";
import type { Halt } from "./halt.ts";
import { HoldOff } from "./hold-off.ts";
import { browserPorts, type Ports } from "./ports.ts";
import { playRound } from "./round.ts";
import { type SignedIn, signIn, signOut } from "./session.ts";
import { notAsked, statusAfter } from "./status.ts";

export const TICK_MS = 30_000;

export interface SyncOptions extends Partial<Ports> {
  /** Whether the page shows the job: its packet then stays. */
  isOpen?(jobId: string): boolean;
  /** Told in each round who is signed in. */
  onPerson?(person: Profile): void;
}

export const createSync = (store: TabletStore, options: SyncOptions = {}): Sync =>
  new TabletSync(store, options);

class TabletSync implements Sync {
  readonly #store: TabletStore;
  readonly #ports: Ports;
  readonly #isOpen: (jobId: string) => boolean;
  readonly #onPerson: (person: Profile) => void;
  readonly #listeners = new Set<() => void>();
  readonly #holdOff = new HoldOff();
  #stops: (() => void)[] = [];
  #status = notAsked();
  #running: Promise<unknown> = Promise.resolve();
  /** The round after the one that runs: more in waiting would only do the same again. */
  #next: { byHand: boolean; outcome: Promise<SyncStatus> } | undefined;

  constructor(
    store: TabletStore,
    { isOpen = () => false, onPerson = () => undefined, ...ports }: SyncOptions,
  ) {
    this.#store = store;
    this.#ports = { ...browserPorts(), ...ports };
    this.#isOpen = isOpen;
    this.#onPerson = onPerson;
  }

  status(): SyncStatus {
    return this.#status;
  }

  round(): Promise<SyncStatus> {
    return this.#queue(true);
  }

  async signIn(email: string, password: string, code?: string): Promise<SignedIn> {
    const outcome = await signIn(email, password, code, this.#ports);
    if (outcome.ok) this.#holdOff.passed();
    if (outcome.ok && outcome.profile.firmId === this.#store.firmId) void this.#queue(true);
    return outcome;
  }

  async signOut(): Promise<void> {
    await signOut(this.#ports);
    // A round that is on its way would put back what goes.
    await this.#running;
    await this.#store.clearAway();
    const sentence = phrase("tabletSync.signedOut");
    this.#tell({ ...this.#status, state: "sign-in", sentence });
  }

  start(): void {
    const attempt = (): void => void this.#queue(false);
    this.#stops.push(this.#ports.onReturn(attempt), this.#store.onKept(attempt), this.#tick());
    attempt();
  }

  stop(): void {
    for (const stop of this.#stops) stop();
    this.#stops = [];
  }

  onChange(listener: () => void): () => void {
    this.#listeners.add(listener);
    return () => this.#listeners.delete(listener);
  }

  #tick(): () => void {
    let callOff = (): void => undefined;
    const wait = (): void => {
      callOff = this.#ports.after(TICK_MS, () => {
        wait();
        void this.#queue(false);
      });
    };
    wait();
    return () => callOff();
  }

  #queue(byHand: boolean): Promise<SyncStatus> {
    if (this.#next) {
      this.#next.byHand ||= byHand;
      return this.#next.outcome;
    }
    const outcome = this.#running.then(() => this.#play(this.#takeNext()));
    this.#next = { byHand, outcome };
    this.#running = outcome.catch(() => undefined);
    return outcome;
  }

  #takeNext(): boolean {
    const byHand = this.#next?.byHand ?? false;
    this.#next = undefined;
    return byHand;
  }

  async #play(byHand: boolean): Promise<SyncStatus> {
    if (this.#holdOff.waitMs(this.#ports.monotonicMs(), byHand) > 0) return this.#status;
    const before = this.#status;
    const { locks } = this.#ports;
    if (!locks) return this.#send();
    const mode = byHand ? {} : { ifAvailable: true };
    await locks.request(`${this.#store.name}-send`, mode, async (lock) => {
      // Another tab is at it.
      await (lock ? this.#send() : this.#tell(before));
    });
    return this.#status;
  }

  async #send(): Promise<SyncStatus> {
    this.#tell({ ...this.#status, state: "sending", sentence: phrase("tabletSync.sending") });
    let halt: Halt | undefined = { state: "busy", sentence: phrase("tabletSync.brokeOff") };
    try {
      halt = await playRound({
        store: this.#store,
        ports: this.#ports,
        at: () => this.#at(),
        onContact: () => {
          this.#status = { ...this.#status, lastContactAt: this.#at() };
        },
        isOpen: this.#isOpen,
        onPerson: this.#onPerson,
      });
    } finally {
      this.#finish(halt);
    }
    return this.#status;
  }

  #finish(halt: Halt | undefined): void {
    const nowMs = this.#ports.monotonicMs();
    if (halt) this.#holdOff.failed(halt, nowMs, this.#ports.random());
    else this.#holdOff.passed();
    const waitMs = this.#holdOff.waitMs(nowMs, false);
    this.#tell(statusAfter(halt, this.#status, waitMs > 0 ? this.#at(waitMs) : undefined));
  }

  #at(laterMs = 0): string {
    return new Date(this.#ports.now() + laterMs).toISOString();
  }

  #tell(status: SyncStatus): void {
    this.#status = status;
    for (const listener of [...this.#listeners]) listener();
  }
}
