// An import runs by itself, step by step: claimed by one worker for a while, renewed as long as it
// goes on. A worker that dies leaves nothing behind but the claim, which runs out; whoever comes
// next begins anew. What rows change is one transaction, so there is never half an import.
import { uuidv7 } from "uuidv7";
import { inFirm } from "../../db/scope.ts";
import { applyImport } from "./apply-import.ts";
import { checkImport } from "./check-import.ts";
import { UnreadableFile } from "./read-csv.ts";
import { beat, claimImport, finishImport } from "./store.ts";
import { type Desk, GivenUp, type Task } from "./task.ts";

const LEASE_MS = 150_000;
const ATTEMPTS_MOST = 3;

/** Does what the import waits for; false when there is nothing to do, or another is at it. */
export async function workOn(desk: Desk, importId: string): Promise<boolean> {
  const lease = { importId, workerId: uuidv7() };
  const until = () => new Date(desk.now().getTime() + LEASE_MS);
  const row = await inFirm(desk.db, desk.firmId, (tx) =>
    claimImport(tx, lease, desk.now(), until()),
  );
  if (!row) return false;
  const task: Task = {
    ...{ desk, row, lease },
    beat: async (done, total) => {
      const told = {
        until: until(),
        ...(done === undefined ? {} : { done }),
        ...(total === undefined ? {} : { total }),
      };
      const held = await inFirm(desk.db, desk.firmId, (tx) => beat(tx, lease, told));
      if (!held || desk.stop?.aborted) throw new GivenUp();
    },
  };
  try {
    await (row.state === "checking" ? checkImport(task) : applyImport(task));
  } catch (error) {
    if (await giveBack(task, error)) await workOn(desk, importId);
  }
  return true;
}

/** Whether to try again at once. */
async function giveBack({ desk, row, lease }: Task, error: unknown): Promise<boolean> {
  const finish = (change: Parameters<typeof finishImport>[2]) =>
    inFirm(desk.db, desk.firmId, (tx) => finishImport(tx, lease, change));
  if (error instanceof GivenUp) {
    await finish({ attempts: row.attempts - 1 });
    return false;
  }
  if (error instanceof UnreadableFile) {
    await finish({ state: "failed", problem: error.message });
    return false;
  }
  desk.onFault(error, row.id);
  if (row.attempts < ATTEMPTS_MOST) return finish({});
  const problem =
    "Something failed on our side, several times. Nothing was imported. Try the dry run again.";
  await finish({ state: "failed", problem });
  return false;
}
