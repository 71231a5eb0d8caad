// Asking for the close-out. The server closes no job whose photos it does not have, and readings go
// before photos: asked while photos wait, the tablet asks by itself once they are there.
import type { NewOp } from "../contract.ts";
import type { JobState } from "../job/job-state.ts";
import { phrase } from "../language/spoken.ts";
import type { PageSide } from "./page-side.ts";

const WISHES = "close-out-wishes";

export class CloseOutAsking {
  readonly #page: PageSide;
  #wishes = new Set<string>();
  #isAsking = false;

  constructor(page: PageSide) {
    this.#page = page;
  }

  async recall(): Promise<void> {
    const kept = await this.#page.parts.keeper.setting(WISHES);
    if (Array.isArray(kept)) this.#wishes = new Set(kept.map(String));
  }

  isWished(jobId: string): boolean {
    return this.#wishes.has(jobId);
  }

  photosWaiting(jobId: string): number {
    return this.#page.photos.filter((one) => one.jobId === jobId && one.state === "waiting").length;
  }

  /** Asks now, or as soon as the photos of the job are with the server. */
  async ask(job: JobState): Promise<void> {
    const jobId = job.packet.job.id;
    try {
      // Photos of what was kept a moment ago are known only once the store was read again.
      await this.#page.refresh();
      if (this.photosWaiting(jobId) > 0) await this.#wish(jobId, true);
      else await this.#keep(job);
      this.#page.say(phrase("tabletVisit.asked"));
    } catch (error) {
      this.#page.tell(
        error instanceof Error ? error.message : phrase("tabletVisit.notKept"),
        "bad",
      );
    }
  }

  /** Asks for every job that was wished closed and whose photos are there now. */
  async fulfil(): Promise<void> {
    if (this.#isAsking) return;
    this.#isAsking = true;
    try {
      for (const jobId of [...this.#wishes]) {
        const job = this.#page.job(jobId);
        if (!job || this.photosWaiting(jobId) > 0) continue;
        await this.#keep(job);
        await this.#wish(jobId, false);
      }
    } catch {
      // The wish stays, and is tried again with the next change of the store.
    } finally {
      this.#isAsking = false;
    }
  }

  async #keep(job: JobState): Promise<void> {
    this.#page.add(await this.#page.parts.keeper.keep(closeOutOp(job)));
  }

  async #wish(jobId: string, isWished: boolean): Promise<void> {
    if (isWished) this.#wishes.add(jobId);
    else this.#wishes.delete(jobId);
    await this.#page.parts.keeper.putSetting(WISHES, [...this.#wishes]);
    this.#page.redraw();
  }
}

function closeOutOp(job: JobState): NewOp {
  const { open, blockers } = job.gate();
  const { packet } = job;
  return {
    jobId: packet.job.id,
    payload: { kind: "close-out", seenOpen: open, seenBlockers: blockers.length },
    photos: [],
    seen: { jobVersion: packet.job.version, lastOrder: packet.lastOrder },
  };
}
