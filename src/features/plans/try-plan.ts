import type { FirmTransaction } from "../../db/scope.ts";
import { checkPlan, type PlanProblem } from "../../domain/plan/check.ts";
import { compilePlan } from "../../domain/plan/compile.ts";
import { type Sample, sampleFor } from "../../domain/plan/sample.ts";
import { type Trial, tryPlan, verdictsOf } from "../../domain/plan/trial.ts";
import { invalid, Problem } from "../../errors.ts";
import { faultsInAnswer } from "../answers/check-answers.ts";
import { documentOf, readVersion } from "./keep-plan.ts";
import { trialAnswers, trialContext } from "./trial-facts.ts";
import type { PlanTrialRun } from "./trial-schemas.ts";

const VERDICTS_MOST = 5000;

export type TriedPlan =
  | { publishable: false; problems: PlanProblem[] }
  | ({ publishable: true; warnings: PlanProblem[] } & Trial);

/** Judges made-up answers by a plan; nothing is stored. */
export async function tryDocument(
  tx: FirmTransaction,
  run: PlanTrialRun,
  now: Date,
): Promise<TriedPlan> {
  const document = run.plan ? documentOf(await readVersion(tx, run.plan)) : run.document;
  const checked = checkPlan(document);
  if (!checked.ok) return { publishable: false, problems: checked.problems };
  const plan = compilePlan(checked.plan);
  const context = await trialContext(tx, run.context, now);
  const count = verdictsOf(plan, context);
  if (count > VERDICTS_MOST) {
    const sentence = `The plan asks ${count} times on this job; a trial takes ${VERDICTS_MOST}.`;
    throw invalid("/body/context/units", sentence);
  }
  const answers = trialAnswers(run.answers, context.now);
  const errors = answers.flatMap((answer, index) =>
    faultsInAnswer(answer as Parameters<typeof faultsInAnswer>[0], plan, context).map((fault) => ({
      pointer: `/body/answers/${index}${fault.pointer}`,
      detail: fault.detail,
    })),
  );
  const [first] = errors;
  if (first) throw new Problem("invalid-input", `${first.pointer}: ${first.detail}`, { errors });
  return { publishable: true, warnings: checked.warnings, ...tryPlan(plan, answers, context) };
}

/** Facts and answers to begin a trial of a version from. */
export async function sampleOf(
  tx: FirmTransaction,
  place: { planId: string; number: number },
  site: { supply?: string | undefined; region?: string | undefined },
  now: Date,
): Promise<Sample> {
  const checked = checkPlan(documentOf(await readVersion(tx, place)));
  if (!checked.ok) {
    const { problems } = checked;
    throw new Problem("plan-invalid", `The document has faults: ${problems[0]?.sentence}`, {
      errors: problems.map(({ pointer, code, sentence }) => ({ pointer, code, detail: sentence })),
    });
  }
  const { supply, region } = site;
  const wanted = { ...(supply ? { supply } : {}), ...(region ? { region } : {}) };
  return sampleFor(compilePlan(checked.plan), now.toISOString(), wanted);
}
