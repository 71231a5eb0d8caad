// The work on one item: what is typed, kept as a draft, and handed to the store. Nothing is shown
// as kept before the store has said so.
import type { Verdict } from "../../domain/acceptance/verdict.ts";
import { localTimestamp } from "../device/local-time.ts";
import { answerOp } from "../job/answer-op.ts";
import type { Draft } from "../job/draft.ts";
import { instrumentClass } from "../job/instruments.ts";
import { findItem, type ItemState, type JobState, keyOf } from "../job/job-state.ts";
import { type NextItem, nextItem } from "../job/next-items.ts";
import { type Preview, preview, whyNotKept } from "../job/preview.ts";
import { phrase, retold } from "../language/spoken.ts";
import type { PageSide } from "./page-side.ts";
import { StageClocks } from "./stage-clocks.ts";
import { draftKey, newWork, type Work } from "./work.ts";

const DRAFT_AFTER_MS = 250;

export class ItemDesk {
  work: Work | undefined;
  readonly clocks: StageClocks;
  readonly #page: PageSide;
  readonly #setAside = new Map<string, Set<string>>();
  #draftTimer: ReturnType<typeof setTimeout> | undefined;

  constructor(page: PageSide) {
    this.#page = page;
    this.clocks = new StageClocks(page);
    document.addEventListener("visibilitychange", () => void this.saveDraft());
  }

  /** Between a tap and the store's answer. */
  get isKeeping(): boolean {
    return this.work?.isKeeping ?? false;
  }

  /** The item that is worked on: the one of the address, or the next one until it is left. */
  current(job: JobState): ItemState | undefined {
    const { route } = this.#page;
    if (route.name === "item") return this.#open(job, findItem(job, route.itemId, route.subject));
    if (this.work?.jobId === job.packet.job.id) {
      const same = findItem(job, this.work.itemId, this.work.subject);
      if (same) return same;
    }
    const next = this.next(job);
    return this.#open(job, "state" in next && next.kind !== "wait" ? next.state : undefined);
  }

  next(job: JobState): NextItem {
    return nextItem(job, this.#asideOf(job.packet.job.id));
  }

  #open(job: JobState, state: ItemState | undefined): ItemState | undefined {
    if (!state) return undefined;
    const itemId = state.compiled.item.id;
    const subject = state.subject.key;
    const { work } = this;
    const jobId = job.packet.job.id;
    if (work?.jobId === jobId && work.itemId === itemId && work.subject === subject) return state;
    const fresh = newWork({ jobId, itemId, subject });
    this.work = fresh;
    this.clocks.worked(job, state);
    void this.#fill(fresh, instrumentClass(state.compiled.item));
    return state;
  }

  async #fill(work: Work, wanted: string | undefined): Promise<void> {
    const { keeper } = this.#page.parts;
    const [draft, instrument] = await Promise.all([
      keeper.draft(draftKey(work)),
      wanted ? keeper.setting(`instrument:${wanted}`) : undefined,
    ]);
    if (typeof draft === "object" && draft !== null) work.draft = { ...draft, ...work.draft };
    if (typeof instrument === "string") work.instrumentId ??= instrument;
    this.#page.redraw();
  }

  /** Takes what was typed or ticked, and keeps it as a draft. */
  put(change: Partial<Draft>): void {
    const { work } = this;
    if (!work) return;
    work.draft = { ...work.draft, ...change };
    work.problem = undefined;
    clearTimeout(this.#draftTimer);
    this.#draftTimer = setTimeout(() => void this.saveDraft(), DRAFT_AFTER_MS);
    this.#page.redraw();
  }

  async saveDraft(): Promise<void> {
    const { work } = this;
    clearTimeout(this.#draftTimer);
    this.#draftTimer = undefined;
    if (!work || work.kept || Object.keys(work.draft).length === 0) return;
    await this.#page.parts.keeper.putDraft(draftKey(work), work.draft).catch(() => undefined);
  }

  chooseInstrument(wanted: string, id: string): void {
    if (!this.work) return;
    this.work.instrumentId = id;
    this.work.isChoosing = false;
    void this.#page.parts.keeper.putSetting(`instrument:${wanted}`, id);
    this.#page.focus("#number");
    this.#page.redraw();
  }

  preview(job: JobState, state: ItemState, takenAt = localTimestamp()): Preview {
    const { work } = this;
    if (!work) return { state: "incomplete" };
    const { personId } = this.#page.profile;
    const taking = { personId, takenAt };
    const { instrumentId } = work;
    return preview(job, state, work.draft, instrumentId ? { ...taking, instrumentId } : taking);
  }

  #verdictOn(job: JobState, state: ItemState, takenAt: string): Verdict {
    const found = this.preview(job, state, takenAt);
    return found.state === "judged" ? found.verdict : state.verdict;
  }

  /** Keeps the answer, with a change to the draft made by the same tap. */
  async keep(job: JobState, state: ItemState, change: Partial<Draft> = {}): Promise<void> {
    const { work } = this;
    if (!work || work.isKeeping || work.kept) return;
    performance.mark("tap");
    work.draft = { ...work.draft, ...change };
    work.problem = whyNotKept(state.compiled.item, work.draft);
    if (work.problem !== undefined) {
      this.#page.say(work.problem);
      return;
    }
    work.isKeeping = true;
    const takenAt = localTimestamp();
    try {
      const op = await this.#page.parts.keeper.keep(answerOp(job, state, { ...work, takenAt }));
      performance.mark("kept");
      const verdict = this.#verdictOn(job, state, takenAt);
      work.kept = { op, verdict };
      this.#page.add(op);
      clearTimeout(this.#draftTimer);
      void this.#page.parts.keeper.dropDraft(draftKey(work)).catch(() => undefined);
      this.#asideOf(work.jobId).delete(keyOf(state));
      this.#page.say(phrase("tabletItem.kept", { words: retold(verdict.sentence) }));
      this.#page.focus(".reach .main");
      this.clocks.kept(work.jobId, state);
    } catch (error) {
      work.problem = error instanceof Error ? error.message : phrase("tabletItem.notKept");
      this.#page.say(work.problem);
    } finally {
      work.isKeeping = false;
      this.#page.redraw();
    }
  }

  /** Another attempt at the item just kept. */
  again(): void {
    if (!this.work) return;
    this.work.kept = undefined;
    this.work.draft = {};
    this.#page.redraw();
    this.#page.focusHeading();
  }

  /** Leaves the item for later. */
  setAside(state: ItemState): void {
    if (this.work) this.#asideOf(this.work.jobId).add(keyOf(state));
    void this.goOn();
  }

  /** To the next item, whatever it is. */
  async goOn(): Promise<void> {
    const jobId = this.work?.jobId;
    await this.leave();
    if (jobId && this.#page.route.name === "item") this.#page.go({ name: "next", jobId });
    else {
      this.#page.redraw();
      this.#page.focusHeading();
    }
  }

  async leave(): Promise<void> {
    await this.saveDraft();
    this.work = undefined;
  }

  clear(): void {
    this.work = undefined;
  }

  #asideOf(jobId: string): Set<string> {
    const aside = this.#setAside.get(jobId) ?? new Set<string>();
    this.#setAside.set(jobId, aside);
    return aside;
  }
}
