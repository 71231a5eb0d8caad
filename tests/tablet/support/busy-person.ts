// Somebody at work with a tablet of ours, doing and suffering by chance what people do and suffer.
import { expect } from "vitest";
import type { TabletOp } from "../../../src/features/tablet/schemas.ts";
import type { Counts, NewOp } from "../../../src/tablet/contract.ts";
import type { TabletStore } from "../../../src/tablet/store/sending.ts";
import { type Chance, chanceOf } from "../../support/chance.ts";
import type { PracticeJob } from "../../support/practice-job.ts";
import { BadNetwork } from "./bad-network.ts";
import { CookieFetch } from "./cookie-fetch.ts";
import { type TestSync, testSync } from "./test-sync.ts";
import { DAY_MS, snag, TestTablet } from "./test-tablet.ts";

export interface PersonOptions {
  origin: string;
  firmId: string;
  personId: string;
  credentials: { email: string; password: string };
  job: PracticeJob;
  chance: Chance;
  networkSeed: number;
}

/** Each as often, beside the others, as it stands here. */
const ACTS = [
  ...["keep", "keep", "keep", "keep", "keep", "keep from two tabs", "keep from two tabs"],
  ...["send", "send", "send", "send", "send", "send", "crash while sending"],
  ...["crash while sending", "crash while keeping", "crash", "clock", "session", "cleared"],
] as const;
const TEN_YEARS_MS = 3653 * DAY_MS;

export class BusyPerson {
  /** What `keep` said yes to. */
  readonly kept: TabletOp[] = [];
  readonly did = new Map<string, number>();
  readonly #options: PersonOptions;
  readonly #tablet: TestTablet;
  readonly #cookies: CookieFetch;
  readonly #network: BadNetwork;
  #store: TabletStore;
  #sync: TestSync;

  static async on(options: PersonOptions): Promise<BusyPerson> {
    const tablet = new TestTablet(options.firmId, options.personId);
    const person = new BusyPerson(options, tablet, await tablet.open());
    await person.#signIn();
    return person;
  }

  private constructor(options: PersonOptions, tablet: TestTablet, store: TabletStore) {
    this.#options = options;
    this.#tablet = tablet;
    this.#cookies = new CookieFetch(options.origin);
    // A chance of its own: how many requests there are must not change what the person does.
    this.#network = new BadNetwork(this.#cookies, chanceOf(options.networkSeed));
    this.#store = store;
    this.#sync = testSync(tablet, store, this.#network.fetch);
  }

  counts = (): Promise<Counts> => this.#store.counts();

  async act(): Promise<void> {
    const { chance } = this.#options;
    const act = chance.pick(ACTS);
    this.did.set(act, (this.did.get(act) ?? 0) + 1);
    this.#network.badness = chance.pick([0, 0.5, 0.8]);
    this.#network.opsOnly = chance.share() < 0.7;
    await this.#acts[act]?.();
    this.#sync.pass(chance.between(0, 400_000));
  }

  /** Signal at last, and a session: everything goes. */
  async comeHome(replay: string): Promise<void> {
    this.#network.badness = 0;
    await this.#signIn();
    this.#sync.pass(3_600_000);
    const status = await this.#sync.round();
    expect(status, replay).toMatchObject({ state: "settled" });
    for (const [fault, count] of this.#network.counts) this.did.set(fault, count);
  }

  leave = (): Promise<void> => this.#tablet.switchOff();

  readonly #acts: Readonly<Record<string, () => Promise<unknown>>> = {
    keep: () => this.#keep(this.#store),
    "keep from two tabs": () => this.#keepFromTwoTabs(),
    send: () => this.#sync.round(),
    crash: () => this.#switchOnAgain(),
    "crash while keeping": async () => {
      const keeping = this.#keep(this.#store).catch(() => undefined);
      await this.#switchOnAgain();
      await keeping;
    },
    "crash while sending": async () => {
      const sending = this.#sync.round().catch(() => undefined);
      await this.#wait();
      await this.#switchOnAgain();
      await sending;
    },
    clock: async () => {
      this.#tablet.clockOffByMs = this.#options.chance.pick([-TEN_YEARS_MS, 0, TEN_YEARS_MS]);
    },
    session: async () => {
      // Two weeks without signal, and then the session is no more.
      this.#tablet.clockMs += 14 * DAY_MS;
      await this.#cookies.fetch("/api/v1/session", { method: "DELETE" });
      await this.#sync.round();
      await this.#signIn();
    },
    cleared: async () => {
      const file = await this.#store.outboxFile();
      const { waiting } = await this.#store.counts();
      await this.#tablet.clearStore();
      await this.#switchOnAgain();
      expect((await this.#store.health()).lost).toBe(waiting);
      expect(await this.#store.restore(file)).toBe(waiting);
      expect((await this.#store.health()).lost).toBe(0);
    },
  };

  async #keep(store: TabletStore): Promise<void> {
    const { op } = await store.keep(this.#fact());
    this.kept.push(op);
  }

  async #keepFromTwoTabs(): Promise<void> {
    const other = await this.#tablet.open();
    await Promise.all([this.#keep(this.#store), this.#keep(other), this.#keep(this.#store)]);
    await other.close();
  }

  #fact(): NewOp {
    const { chance, job } = this.#options;
    if (chance.share() < 0.5) return snag(job.jobId);
    const { id: _id, photos: _photos, ...answer } = chance.pick(job.answers());
    const payload = { kind: "answer", answer } as NewOp["payload"];
    return { jobId: job.jobId, payload, photos: [] };
  }

  async #switchOnAgain(): Promise<void> {
    await this.#tablet.switchOff();
    this.#store = await this.#tablet.open();
    this.#sync = testSync(this.#tablet, this.#store, this.#network.fetch);
  }

  /** A few turns of the loop: somewhere in the middle of what goes on. */
  async #wait(): Promise<void> {
    const turns = this.#options.chance.between(0, 30);
    for (let turn = 0; turn < turns; turn += 1) await new Promise(setImmediate);
  }

  async #signIn(): Promise<void> {
    const { email, password } = this.#options.credentials;
    const { badness } = this.#network;
    this.#network.badness = 0;
    const outcome = await this.#sync.signIn(email, password);
    expect(outcome).toMatchObject({ ok: true });
    this.#network.badness = badness;
    await this.#sync.round();
  }
}
