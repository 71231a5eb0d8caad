// Requirement: a verdict can be worked out again by a stranger (product rule), so everything it
// rests on besides plan and answers is kept as plain JSON.
import type { Answer } from "../acceptance/answer.ts";
import { Judge } from "../acceptance/judge.ts";
import type { Verdict } from "../acceptance/verdict.ts";
import { closeOut, type GateResult } from "../closeout/gate.ts";
import type { CompiledPlan } from "../plan/compile.ts";
import type { InstrumentFacts, JobContext } from "../plan/context.ts";

export type SealedFacts = Omit<JobContext, "photosHeld"> & { photosHeld: readonly string[] };

/**
 * The facts as plain JSON.
 * @param lastOrder receipt order of the job's last answer: uses of a torque tool that became known
 *   after it bear on no answer and are left out
 */
export function sealFacts(context: JobContext, lastOrder: number): SealedFacts {
  return {
    ...context,
    instruments: context.instruments.map((instrument) => withKnownUses(instrument, lastOrder)),
    photosHeld: [...(context.photosHeld ?? [])].sort(),
  };
}

function withKnownUses(instrument: InstrumentFacts, lastOrder: number): InstrumentFacts {
  if (!instrument.uses) return instrument;
  return { ...instrument, uses: instrument.uses.filter(({ fromOrder }) => fromOrder <= lastOrder) };
}

/** The facts as the rules take them. */
export const openFacts = (sealed: SealedFacts): JobContext => ({
  ...sealed,
  photosHeld: new Set(sealed.photosHeld),
});

/** What the rules say of a whole record: the gate, and the verdict on each answer, by its id. */
export type Judgement = Pick<GateResult, "open" | "facts" | "ruleVersion"> & {
  answers: { id: string; verdict: Verdict | null }[];
};

/** Judges a record. `verdict` is null for an answer that the plan does not ask for. */
export function judgeRecord(
  plan: CompiledPlan,
  answers: readonly Answer[],
  sealed: SealedFacts,
): Judgement {
  const context = openFacts(sealed);
  const { open, facts, ruleVersion } = closeOut(plan, answers, context);
  const judge = new Judge(plan, answers, context);
  const verdicts = answers.map((answer) => ({
    id: answer.id,
    verdict: judge.verdictOn(answer) ?? null,
  }));
  return { open, facts, ruleVersion, answers: verdicts };
}
