import { addPeriod } from "../../domain/dates/period.ts";
import type { RecurringRow } from "./store.ts";

const dayText = (date: Date): string => date.toISOString().slice(0, 10);

export function shown({ id, site, plan, title, everyMonths, horizonDays, ...row }: RecurringRow) {
  const nextDueOn = dayText(row.nextDueOn);
  const [last] = row.jobs;
  return {
    ...{ id, plan, title, everyMonths, horizonDays, nextDueOn, version: row.version },
    site: { id: site.id, reference: site.reference, name: site.name ?? site.addressLine },
    nextOpensOn: addPeriod(nextDueOn, { days: -horizonDays }),
    ended: row.endedAt !== null,
    heldUpBy: row.heldUpBy,
    lastJob: last ? { ...last.job, dueOn: dayText(last.dueOn) } : null,
  };
}

export type Recurring = ReturnType<typeof shown>;
