// Nonconformances on jobs of the scenario, taken through their steps by the verbs that people use.
import { type FirmTransaction, inFirm } from "../db/scope.ts";
import { checkEffect } from "../features/nonconformances/check-effect.ts";
import { followUp, openNonconformance } from "../features/nonconformances/follow-up.ts";
import type { NonconformanceEdit } from "../features/nonconformances/schemas.ts";
import { findNonconformance } from "../features/nonconformances/store.ts";
import { minutesAfter } from "./calendar.ts";
import { type Firm, find, personOf } from "./scene.ts";
import { type DemoNonconformance, NONCONFORMANCES } from "./tables/nonconformances.ts";

const A_DAY = 24 * 60;

export async function loadNonconformances(
  firm: Firm,
  jobIds: ReadonlyMap<string, string>,
): Promise<void> {
  for (const one of NONCONFORMANCES) {
    await inFirm(firm.db, firm.firmId, (tx) => load(tx, firm, find(jobIds, one.job), one));
  }
}

async function load(tx: FirmTransaction, firm: Firm, jobId: string, one: DemoNonconformance) {
  const manager = personOf(firm, "orla").id;
  let now = minutesAfter(firm.now, -one.openedDaysAgo * A_DAY);
  const who = () => ({ personId: manager, language: "en" as const, now });
  const { kind, title, containment, cause } = one;
  const opened = await openNonconformance(tx, { kind, title, jobId, ownerId: manager }, who());
  if (!opened) throw new Error(`${title} is on record already`);
  const step = async (edit: NonconformanceEdit) => {
    const version = (await findNonconformance(tx, opened.id))?.version ?? 0;
    now = minutesAfter(now, A_DAY);
    await followUp(tx, { id: opened.id, version }, edit, who());
  };
  if (containment) await step({ containment });
  if (cause) await step({ cause });
  for (const { text, effectInDays, verdict, note = "" } of one.corrections) {
    const due = effectInDays === undefined ? undefined : firm.today.add({ days: effectInDays });
    const plan = due ? { effectDueOn: due.toString(), effectById: manager } : {};
    await step({ correction: text, ...plan });
    if (!verdict) continue;
    now = minutesAfter(firm.now, (effectInDays ?? 0) * A_DAY);
    await checkEffect(tx, opened.id, { verdict, note }, who());
  }
}
