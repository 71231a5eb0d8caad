// The page: what it knows, where it is, and drawing itself anew when either changes. Views read it;
// what a person does on an item is at the desk (item-desk.ts).

import type {
  Counts,
  HeldPacket,
  Keeper,
  KeptOp,
  KeptPhoto,
  ListedVisit,
  Profile,
  StoreHealth,
  Sync,
} from "../contract.ts";
import type { JobState } from "../job/job-state.ts";
import { CloseOutAsking } from "./close-out-asking.ts";
import { ItemDesk } from "./item-desk.ts";
import type { NewVersion } from "./new-version.ts";
import { addressOf, type JobRoute, type Route, readRoute } from "./route.ts";
import { ShownJobs } from "./shown-jobs.ts";

export interface PageParts {
  keeper: Keeper;
  sync: Sync;
  profile: Profile;
  newVersion: NewVersion;
  /** Draws the page; called at most once a frame. */
  draw(page: TabletPage): void;
}

/** In a job: longer than from one tap to the next of a quick hand. */
const REFRESH_IN_JOB_MS = 400;
const REFRESH_ELSEWHERE_MS = 100;

const NOTHING_KEPT: Counts = {
  ...{ kept: 0, waiting: 0, held: 0, refused: 0, photosWaiting: 0, photoBytesWaiting: 0 },
};

export class TabletPage {
  readonly parts: PageParts;
  readonly desk: ItemDesk;
  readonly asking: CloseOutAsking;
  route: Route = { name: "day" };
  profile: Profile;
  isRead = false;
  packets: readonly HeldPacket[] = [];
  /** The list of the day, also of what is not on the tablet yet. */
  visits: readonly ListedVisit[] = [];
  ops: readonly KeptOp[] = [];
  photos: readonly KeptPhoto[] = [];
  counts: Counts = NOTHING_KEPT;
  health: StoreHealth = { persistent: true, lost: 0, room: "enough" };
  /** Something that went wrong or was done, until it is put away. */
  notice: { sentence: string; tone: "bad" | "good" } | undefined;
  /** Said to screen readers. */
  spoken = "";
  readonly #jobs = new ShownJobs();
  #isDrawing = false;
  #reading: Promise<void> | undefined;
  #isStale = false;
  #refreshTimer: ReturnType<typeof setTimeout> | undefined;

  constructor(parts: PageParts) {
    this.parts = parts;
    this.profile = parts.profile;
    this.desk = new ItemDesk(this);
    this.asking = new CloseOutAsking(this);
  }

  async start(): Promise<void> {
    this.route = readRoute(location.hash);
    window.addEventListener("hashchange", () => void this.#moved());
    this.parts.keeper.onChange(() => this.#refreshSoon());
    this.parts.sync.onChange(() => this.redraw());
    await this.asking.recall();
    await this.refresh();
  }

  /** What is kept here is shown already; reading it anew must not delay the next tap. */
  #refreshSoon(): void {
    clearTimeout(this.#refreshTimer);
    const afterMs = "jobId" in this.route ? REFRESH_IN_JOB_MS : REFRESH_ELSEWHERE_MS;
    this.#refreshTimer = setTimeout(() => {
      if (this.desk.isKeeping) this.#refreshSoon();
      else void this.refresh();
    }, afterMs);
  }

  /** Reads everything anew from the store; asked again meanwhile, once more afterwards. */
  refresh(): Promise<void> {
    this.#isStale = true;
    this.#reading ??= this.#readWhileStale().finally(() => {
      this.#reading = undefined;
    });
    return this.#reading;
  }

  async #readWhileStale(): Promise<void> {
    const { keeper } = this.parts;
    while (this.#isStale) {
      this.#isStale = false;
      const [packets, visits, ops, photos, counts, health] = await Promise.all([
        ...([keeper.packets(), keeper.visits(), keeper.ops(), keeper.photos()] as const),
        ...([keeper.counts(), keeper.health()] as const),
      ]);
      Object.assign(this, { packets, visits, ops, photos, counts, health, isRead: true });
      this.redraw();
      void this.asking.fulfil();
    }
  }

  redraw(): void {
    if (this.#isDrawing) return;
    this.#isDrawing = true;
    requestAnimationFrame(() => {
      this.#isDrawing = false;
      // Drawing would hold up the store's answer; the page is drawn once that has come.
      if (!this.desk.isKeeping) this.parts.draw(this);
    });
  }

  go(route: Route): void {
    location.hash = addressOf(route);
  }

  async #moved(): Promise<void> {
    await this.desk.leave();
    this.route = readRoute(location.hash);
    this.notice = undefined;
    this.redraw();
    this.focusHeading();
  }

  /** After a change of view the reader is at its heading. */
  focusHeading(): void {
    window.scrollTo(0, 0);
    this.focus("main h1");
  }

  /** What had the focus is gone from the page: it goes where the work goes on. */
  focus(selector: string): void {
    requestAnimationFrame(() =>
      requestAnimationFrame(() => document.querySelector<HTMLElement>(selector)?.focus()),
    );
  }

  say(sentence: string): void {
    this.spoken = sentence;
    this.redraw();
  }

  tell(sentence: string, tone: "bad" | "good"): void {
    this.notice = { sentence, tone };
    this.redraw();
  }

  held(jobId: string): HeldPacket | undefined {
    return this.packets.find(({ packet }) => packet.job.id === jobId);
  }

  opsOf(jobId: string): readonly KeptOp[] {
    return this.ops.filter(({ op }) => op.jobId === jobId);
  }

  /** A kept operation at once, before the store is read again. */
  add(kept: KeptOp): void {
    this.ops = [...this.ops, kept];
    this.counts = {
      ...this.counts,
      kept: this.counts.kept + 1,
      waiting: this.counts.waiting + 1,
    };
  }

  /** The job of the route; undefined while its packet is not on the tablet. */
  currentJob(): JobState | undefined {
    return "jobId" in this.route ? this.job((this.route as JobRoute).jobId) : undefined;
  }

  /** A job by the packet that is shown of it. */
  job(jobId: string): JobState | undefined {
    const latest = this.held(jobId)?.packet;
    return latest && this.#jobs.read(latest, this.opsOf(jobId));
  }

  /** What the office changed meanwhile, and is not shown yet. */
  changesOf(jobId: string): string[] {
    const latest = this.held(jobId)?.packet;
    return latest ? this.#jobs.changes(latest) : [];
  }

  takeOver(jobId: string): void {
    this.#jobs.forget(jobId);
    this.desk.clear();
    this.redraw();
  }
}
