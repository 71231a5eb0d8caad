// Working hours and absences of the scenario's people.
import { type FirmTransaction, inFirm } from "../db/scope.ts";
import { enterAbsence } from "../features/absences/enter-absence.ts";
import { UNWRITTEN, writeWeek } from "../features/working-hours/store.ts";
import { moment, workingDay } from "./calendar.ts";
import { type Firm, personOf } from "./scene.ts";
import { ABSENCES, WEEKS } from "./tables/hours.ts";
import { FIRM } from "./tables/people.ts";

export async function loadHours(firm: Firm): Promise<void> {
  await inFirm(firm.db, firm.firmId, async (tx) => {
    for (const { person, weekdays, from, to } of WEEKS) {
      const personId = person === undefined ? null : personOf(firm, person).id;
      const week = weekdays.map((weekday) => ({ weekday, from, to }));
      await writeWeek(tx, personId, UNWRITTEN, week);
    }
    await loadAbsences(tx, firm);
  });
}

async function loadAbsences(tx: FirmTransaction, firm: Firm): Promise<void> {
  for (const { person, hours, reason, note, ...days } of ABSENCES) {
    const [from, to] = [workingDay(firm.today, days.from), workingDay(firm.today, days.to)];
    const when = hours
      ? {
          startsAt: moment(from, hours.from, FIRM.timeZone).toISOString(),
          endsAt: moment(to, hours.to, FIRM.timeZone).toISOString(),
        }
      : { from: from.toString(), to: to.toString() };
    await enterAbsence(tx, { personId: personOf(firm, person).id, ...when, reason, note });
  }
}
