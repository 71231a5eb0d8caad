// Facts as crews keep them, by chance: mostly answers, now and then a snag, a stage's time, or a
// reading for an item that the plan does not have, which must end up held.
import type { OpResults, TabletOp } from "../../src/features/tablet/schemas.ts";
import type { Chance } from "../support/chance.ts";
import type { PracticeJob } from "../support/practice-job.ts";
import { type TestTablet, testTablet } from "../support/tablet-ops.ts";

/** A tablet with everything it kept, and what the server said of it. */
export class BusyTablet {
  readonly kept: TabletOp[] = [];
  readonly deviceId: string;
  /** The last of its operations that the server says it has. */
  through = 0;
  #tablet: TestTablet;
  #job: PracticeJob;
  #orderSeen = 0;

  constructor(job: PracticeJob, personId: string) {
    this.#job = job;
    this.#tablet = testTablet(job.jobId, personId);
    this.deviceId = this.#tablet.deviceId;
  }

  keep(chance: Chance): TabletOp {
    const op = this.#fact(chance);
    this.kept.push(op);
    return op;
  }

  learn(reply: OpResults | undefined): void {
    if (!reply) return;
    this.through = Math.max(this.through, reply.storedThrough);
    for (const { receiptOrder = 0 } of reply.results) {
      this.#orderSeen = Math.max(this.#orderSeen, receiptOrder);
    }
  }

  #fact(chance: Chance): TabletOp {
    const orderSeen = chance.between(0, this.#orderSeen);
    const answer = chance.pick(this.#job.answers());
    const share = chance.share();
    if (share < 0.8) return this.#tablet.answer(answer, { orderSeen });
    if (share < 0.88) return this.#tablet.answer({ ...answer, itemId: "nothing" }, { orderSeen });
    if (share < 0.95) return this.#tablet.keep({ kind: "snag", text: "Lid missing" });
    const startedAt = "2026-11-25T10:00:00Z";
    const time = { stageId: "fix", startedAt, endedAt: "2026-11-25T11:00:00Z", activeMs: 60_000 };
    return this.#tablet.keep({ kind: "stage-time", ...time });
  }
}
