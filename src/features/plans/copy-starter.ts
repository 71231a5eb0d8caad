import type { FirmTransaction } from "../../db/scope.ts";
import { invalid } from "../../errors.ts";
import type { ShownLanguage } from "../../language/languages.ts";
import { writePlan } from "./keep-plan.ts";
import { STARTER_PLANS, type StarterPlan } from "./starter-plans.ts";
import { findStarterIn, startersIn } from "./starters-in.ts";
import type { PlanRow } from "./store.ts";

/**
 * What a new plan is written from: the starter that is named, or the fields as they are.
 * @param language of the starter's copy
 */
export function withStarter(
  fields: {
    code: string;
    title?: string | undefined;
    document?: Record<string, unknown> | undefined;
    starter?: string | undefined;
  },
  language: ShownLanguage,
): { code: string; title: string; document?: Record<string, unknown> } {
  const { code, title, document, starter } = fields;
  if (starter === undefined)
    return { code, title: title ?? code, ...(document ? { document } : {}) };
  const found = findStarterIn(language, starter);
  if (!found) {
    const names = STARTER_PLANS.map(({ name }) => name).join(", ");
    throw invalid("/body/starter", `There is no starter plan "${starter}"; there are ${names}.`);
  }
  return startedFrom(found, { code, title });
}

/** Drafts of all starter plans, for a firm that has none of these codes. */
export async function copyAllStarters(
  tx: FirmTransaction,
  language: ShownLanguage,
): Promise<PlanRow[]> {
  const plans: PlanRow[] = [];
  for (const starter of startersIn(language)) {
    plans.push(await writePlan(tx, startedFrom(starter, { code: starter.code })));
  }
  return plans;
}

/** The document is called as the plan is. */
function startedFrom(
  { document }: StarterPlan,
  { code, title = document.title }: { code: string; title?: string | undefined },
): { code: string; title: string; document: Record<string, unknown> } {
  return { code, title, document: { ...document, title } };
}
