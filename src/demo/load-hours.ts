// Working hours, absences and qualifications of the scenario's people; inspections that come round.
import { type FirmTransaction, inFirm } from "../db/scope.ts";
import { enterAbsence } from "../features/absences/enter-absence.ts";
import { askFor, recordQualification } from "../features/qualifications/keep-qualification.ts";
import { addKind } from "../features/qualifications/kind-store.ts";
import {
  changeRecurring,
  startRecurring,
} from "../features/recurring-inspections/keep-recurring.ts";
import { UNWRITTEN, writeWeek } from "../features/working-hours/store.ts";
import { moment, workingDay } from "./calendar.ts";
import { type Catalogue, type Firm, find, personOf, type Scene } from "./scene.ts";
import { ABSENCES, ASKED, HELD, KINDS, RECURRING, WEEKS } from "./tables/hours.ts";
import { FIRM } from "./tables/people.ts";

export async function loadHours(
  firm: Firm,
  sites: Scene["sites"],
  catalogue: Catalogue,
): Promise<void> {
  await inFirm(firm.db, firm.firmId, async (tx) => {
    for (const { person, weekdays, from, to } of WEEKS) {
      const personId = person === undefined ? null : personOf(firm, person).id;
      const week = weekdays.map((weekday) => ({ weekday, from, to }));
      await writeWeek(tx, personId, UNWRITTEN, { days: week, next: null });
    }
    await loadAbsences(tx, firm);
    await loadQualifications(tx, firm);
    await loadRecurring(tx, { firm, sites, catalogue });
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

async function loadQualifications(tx: FirmTransaction, firm: Firm): Promise<void> {
  const kindIds = new Map<string, string>();
  for (const [key, fields] of Object.entries(KINDS)) {
    const kind = await addKind(tx, fields);
    if (!kind) throw new Error(`two qualifications are called ${fields.name}`);
    kindIds.set(key, kind.id);
  }
  for (const { person, kind, from, to, number } of HELD) {
    const [validFrom, validTo] = [from, to].map((days) =>
      days === null ? null : firm.today.add({ days }).toString(),
    );
    await recordQualification(tx, {
      ...{ personId: personOf(firm, person).id, kindId: find(kindIds, kind), number },
      ...{ validFrom: validFrom ?? "", validTo: validTo ?? null, issuedBy: null },
    });
  }
  for (const { kind, ...rule } of ASKED) await askFor(tx, { ...rule, kindId: find(kindIds, kind) });
}

async function loadRecurring(
  tx: FirmTransaction,
  { firm, sites, catalogue }: Pick<Scene, "firm" | "sites" | "catalogue">,
): Promise<void> {
  const planId = find(catalogue.planIds, "PERIODIC-INSPECTION");
  const { id: by } = personOf(firm, "orla");
  for (const { site, firstDue, isPaused = false, ...fields } of RECURRING) {
    const firstDueOn = firm.today.add({ days: firstDue }).toString();
    const own = { siteId: find(sites, site).id, planId, firstDueOn, horizonDays: 30 };
    const { id, version } = await startRecurring(tx, { ...fields, ...own }, by);
    if (isPaused) await changeRecurring(tx, id, version, { ended: true }, firm.now);
  }
}
