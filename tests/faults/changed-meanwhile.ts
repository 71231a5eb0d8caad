// What happens to a job while a tablet is away, and what the job then takes no longer.
import { type FirmTransaction, inFirm } from "../../src/db/scope.ts";
import type { TabletOp } from "../../src/features/tablet/schemas.ts";
import type { TestService } from "../support/app.ts";
import type { PracticeJob } from "../support/practice-job.ts";
import { sendOps, testTablet } from "../support/tablet-ops.ts";

export interface Change {
  /** Returns what another tablet kept for it. */
  make(service: TestService, job: PracticeJob): Promise<TabletOp[]>;
  /** What waits for the office then. */
  isHeld(op: TabletOp, job: PracticeJob): boolean;
}

type Work = (tx: FirmTransaction, job: PracticeJob) => Promise<unknown>;

const inOffice =
  (work: Work): Change["make"] =>
  async ({ db, firm }, job) => {
    await inFirm(db, firm.firmId, (tx) => work(tx, job));
    return [];
  };

const changeJob =
  (change: { state?: string; title?: string }): Work =>
  (tx, { jobId }) =>
    tx.job.updateMany({ where: { id: jobId }, data: { ...change, version: { increment: 1 } } });

/** By another tablet, which answers all that is asked: the database lets no job be closed else. */
async function closeJob(service: TestService, job: PracticeJob): Promise<TabletOp[]> {
  const other = testTablet(job.jobId, service.firm.people.installer.id);
  const ops = job.answers().map((answer) => other.answer(answer));
  ops.push(other.keep({ kind: "close-out", seenOpen: true, seenBlockers: 0 }));
  const reply = await sendOps(service, ops).expect(200);
  if (!reply.body.results.at(-1).closed) throw new Error("the job was not closed");
  return ops;
}

const lastPack = ({ packIds }: PracticeJob): string => packIds.at(-1) ?? "";
const RETIRED_ON = new Date("2026-01-05");

export const CHANGES: Readonly<Record<string, Change>> = {
  renamed: { make: inOffice(changeJob({ title: "Anew" })), isHeld: () => false },
  closed: { make: closeJob, isHeld: ({ payload }) => payload.kind === "answer" },
  cancelled: { make: inOffice(changeJob({ state: "cancelled" })), isHeld: () => true },
  "a pack taken off": {
    make: inOffice(async (tx, job) => {
      await tx.jobUnit.deleteMany({ where: { jobId: job.jobId, unitId: lastPack(job) } });
      await changeJob({})(tx, job);
    }),
    isHeld: ({ payload }, job) =>
      payload.kind === "answer" && payload.answer.subject === lastPack(job),
  },
  "instruments retired": {
    make: inOffice((tx, { instruments }) => {
      const ids = Object.values(instruments);
      const data = { retiredOn: RETIRED_ON };
      return tx.instrument.updateMany({ where: { id: { in: ids } }, data });
    }),
    isHeld: () => false,
  },
};
