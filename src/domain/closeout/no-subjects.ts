// Requirement: nothing is not everything: an item asked for units of which there is none on the job
// is not met, since the unit that should be there is missing.
import type { Judge } from "../acceptance/judge.ts";
import { NOBODY } from "../acceptance/surroundings.ts";
import { missing, notApplicable, type Verdict } from "../acceptance/verdict.ts";
import type { CompiledItem } from "../plan/compile.ts";
import type { Repeat } from "../plan/repeat.ts";

/** The verdict on an item that has no subject on the job. */
export function verdictOnNobody(judge: Judge, compiled: CompiledItem): Verdict {
  if (!judge.applies(compiled, NOBODY)) return { ...notApplicable(), attempts: 0 };
  // Only units can be wanting: a plan names at least one group, and asks at least once.
  const { ofKind: kind = "unit" } = compiled.item.repeat as Extract<Repeat, { per: "unit" }>;
  const sentence = `There is no ${kind} on the job.`;
  const toClear = `Put the ${kind} on the job by its serial number.`;
  return { ...missing("no-subjects", sentence, toClear), attempts: 0 };
}
