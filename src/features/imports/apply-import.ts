// The confirmed step. How things stand now counts, not how they stood at the dry run, so the rows
// are judged anew in the transaction that does what they say.
import { inFirmAs } from "../../db/scope.ts";
import { contextOf, judgeAll, LONG_MS } from "./check-import.ts";
import { dropImportFile } from "./import-folder.ts";
import { kindOf } from "./kinds.ts";
import { clearGoodRows, countOutcomes, forgetVerdicts } from "./rows-store.ts";
import { finishImport } from "./store.ts";
import { GivenUp, type Task } from "./task.ts";

/** Rows that were good at the dry run are bad by now, and nothing was to go in then. */
class NotWhole extends Error {}

export async function applyImport(task: Task): Promise<void> {
  try {
    await applyWhole(task);
  } catch (error) {
    if (!(error instanceof NotWhole)) throw error;
    await judgeAll(
      task,
      "Something changed since the dry run, and rows are bad by now. Nothing was imported.",
    );
    return;
  }
  const { dataFolder, firmId } = task.desk;
  await dropImportFile({ dataFolder, firmId, importId: task.row.id });
}

async function applyWhole(task: Task): Promise<void> {
  const { desk, row, lease } = task;
  const kind = kindOf(row.kind);
  const context = contextOf(task);
  await inFirmAs(
    desk.db,
    { firmId: desk.firmId, personId: row.personId },
    async (tx) => {
      await forgetVerdicts(tx, row.id);
      await kind.judge(tx, context);
      const counts = await countOutcomes(tx, row.id);
      if (row.badRows === "refuse" && (counts.bad ?? 0) > 0) throw new NotWhole();
      await task.beat(0, (counts.new ?? 0) + (counts.changed ?? 0));
      const own = await kind.apply(tx, context);
      await clearGoodRows(tx, row.id);
      const change = { state: "imported", figures: { ...counts, ...own } } as const;
      const done = await finishImport(tx, lease, { ...change, finishedAt: desk.now() });
      if (!done) throw new GivenUp();
    },
    LONG_MS,
  );
}
