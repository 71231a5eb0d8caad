// Inspections that come round have their jobs opened by themselves. Each turn is opened in a
// transaction of its own under a lock, so however many instances run, it is opened once; what
// cannot be opened is noted where the office sees it, and keeps no other from being opened.
import type { Database } from "../db/client.ts";
import { inFirm } from "../db/scope.ts";
import { localDay } from "../domain/dates/zone-time.ts";
import { Problem } from "../errors.ts";
import { openDueTurn } from "../features/recurring-inspections/open-turn.ts";
import { dueToOpen, noteHeldUp } from "../features/recurring-inspections/turn-store.ts";
import { eachFirm, type OnFailure, stopAtOnce } from "./each-firm.ts";

const OPENED_A_RUN = 500;

export interface RecurringFigures {
  opened: number;
  heldUp: number;
}

export async function openRecurringInspections(
  db: Database,
  now: Date,
  onFailure: OnFailure = stopAtOnce,
): Promise<RecurringFigures> {
  const figures: RecurringFigures = { opened: 0, heldUp: 0 };
  await eachFirm(db, onFailure, async ({ id: firmId, timeZone }) => {
    const today = localDay(now.toISOString(), timeZone);
    const ids = await inFirm(db, firmId, (tx) => dueToOpen(tx, today, OPENED_A_RUN));
    for (const id of ids) {
      try {
        const turn = await inFirm(db, firmId, (tx) => openDueTurn(tx, id, today, now));
        if (turn) figures.opened += 1;
      } catch (error) {
        if (!(error instanceof Problem)) throw error;
        await inFirm(db, firmId, (tx) => noteHeldUp(tx, id, error.message));
        figures.heldUp += 1;
      }
    }
  });
  return figures;
}
