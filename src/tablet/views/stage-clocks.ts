// Times of stages, from what is done on the page; kept as they grow, told once a stage is finished.

import { localTimestamp } from "../device/local-time.ts";
import type { ItemState, JobState } from "../job/job-state.ts";
import { type StageClock, stageTime, worked } from "../job/stage-time.ts";
import type { PageSide } from "./page-side.ts";

export class StageClocks {
  readonly #page: PageSide;
  readonly #clocks = new Map<string, StageClock>();
  #turn: Promise<void> = Promise.resolve();

  constructor(page: PageSide) {
    this.#page = page;
  }

  /** A sign of work on an item. */
  worked({ packet }: JobState, state: ItemState): void {
    void this.#inTurn(() => this.#note(packet.job.id, state.compiled.stageId));
  }

  /** An answer was kept: the stage may be finished by it. */
  kept(jobId: string, state: ItemState): void {
    const { stageId } = state.compiled;
    void this.#inTurn(async () => {
      await this.#note(jobId, stageId);
      const clock = this.#clocks.get(nameOf(jobId, stageId));
      const job = this.#page.job(jobId);
      const stage = job?.stages.find(({ id }) => id === stageId);
      if (!clock || !job || !stage || stage.left > 0 || isTold(job, stageId)) return;
      const seen = { jobVersion: job.packet.job.version, lastOrder: job.packet.lastOrder };
      const payload = stageTime(stageId, clock);
      this.#page.add(await this.#page.parts.keeper.keep({ jobId, payload, photos: [], seen }));
    });
  }

  async #note(jobId: string, stageId: string): Promise<void> {
    const name = nameOf(jobId, stageId);
    const { keeper } = this.#page.parts;
    const before =
      this.#clocks.get(name) ?? ((await keeper.setting(name)) as StageClock | undefined);
    const clock = worked(before, localTimestamp());
    this.#clocks.set(name, clock);
    await keeper.putSetting(name, clock);
  }

  /** A clock that could not be kept costs a figure for planning, and nothing of the record. */
  #inTurn(step: () => Promise<void>): Promise<void> {
    this.#turn = this.#turn.then(step).catch(() => undefined);
    return this.#turn;
  }
}

const nameOf = (jobId: string, stageId: string): string => `stage-time:${jobId}:${stageId}`;

const isTold = ({ ops }: JobState, stageId: string): boolean =>
  ops.some(({ op }) => op.payload.kind === "stage-time" && op.payload.stageId === stageId);
