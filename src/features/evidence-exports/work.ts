// An export is made by one worker, who renews the claim as long as it goes on. A worker that dies
// leaves half a file and a claim that runs out; whoever comes next makes the file anew, and the
// same record gives the same bytes.
import { uuidv7 } from "uuidv7";
import { withinAudit } from "../../db/audit-scope.ts";
import { inFirm } from "../../db/scope.ts";
import { Problem } from "../../errors.ts";
import { makeBag } from "./make-bag.ts";
import { beatExport, claimExport, finishExport, type Outcome } from "./store.ts";
import { type Desk, GivenUp, type Task } from "./task.ts";

const LEASE_MS = 150_000;
const ATTEMPTS_MOST = 3;

/** False when there is nothing to do, or another is at it. */
export async function workOn(desk: Desk, exportId: string): Promise<boolean> {
  const lease = { exportId, workerId: uuidv7() };
  const until = () => new Date(desk.now().getTime() + LEASE_MS);
  const row = await inFirm(desk.db, desk.firmId, (tx) =>
    claimExport(tx, lease, desk.now(), until()),
  );
  if (!row) return false;
  const beat = async (jobsDone: number): Promise<void> => {
    const change = { jobsDone, leaseUntil: until() };
    const held = await inFirm(desk.db, desk.firmId, (tx) => beatExport(tx, lease, change));
    if (!held || desk.stop?.aborted) throw new GivenUp();
  };
  const task: Task = { desk, row, lease, beat };
  try {
    // Whoever asked was shown part of the firm: the bag holds that part.
    const made = await withinAudit(row.auditAccessId ?? undefined, () => makeBag(task));
    await finish(task, { state: "ready", finishedAt: desk.now(), ...made });
  } catch (error) {
    if (await giveBack(task, error)) return workOn(desk, exportId);
  }
  return true;
}

const finish = ({ desk, lease }: Task, outcome: Outcome): Promise<boolean> =>
  inFirm(desk.db, desk.firmId, (tx) => finishExport(tx, lease, outcome));

/** Whether to try again at once. */
async function giveBack(task: Task, error: unknown): Promise<boolean> {
  const { desk, row } = task;
  if (error instanceof GivenUp) {
    await finish(task, { attempts: row.attempts - 1 });
    return false;
  }
  if (error instanceof Problem && error.status < 500) {
    await finish(task, { state: "failed", problem: error.message, finishedAt: desk.now() });
    return false;
  }
  desk.onFault(error, row.id);
  if (row.attempts < ATTEMPTS_MOST) return finish(task, {});
  const problem = "Something failed on our side, several times. Ask for the export again.";
  await finish(task, { state: "failed", problem, finishedAt: desk.now() });
  return false;
}
