// Requirement: whatever does not conform is followed up until it is seen that it stays away.
// Source: ISO 9001:2015 10.2.1 (from memory): control it and deal with its consequences, find its
// causes, act on them, review whether the action was effective; 10.2.2: keep the record of that.

/** The steps in the order in which they are taken. */
export const STEPS = ["containment", "cause", "correction", "effectCheck"] as const;
export type Step = (typeof STEPS)[number];

export type FollowUp = { readonly [step in Step]?: string | null | undefined };

/** Due on a plain day ("2026-11-25"), or on none. */
export interface DueFollowUp {
  readonly state: string;
  readonly dueOn: string | null;
}

/** The first step of which nothing is written yet; undefined when all are taken. */
export function nextStep(facts: FollowUp): Step | undefined {
  return STEPS.find((step) => !facts[step]);
}

/** What must be written before it is closed and is not, the cause first. */
export function missingToClose(facts: FollowUp): Step[] {
  return (["cause", "effectCheck"] as const).filter((step) => !facts[step]);
}

/** Past its day and not closed; the day itself still counts as in time. */
export function isOverdue({ state, dueOn }: DueFollowUp, today: string): boolean {
  return state !== "closed" && dueOn !== null && dueOn < today;
}

export const VERDICTS = ["effective", "not-effective"] as const;
export type EffectVerdict = (typeof VERDICTS)[number];

/** What must be written before anybody can see whether it works, and is not. */
export function missingToJudge(facts: FollowUp): Step[] {
  return (["cause", "correction"] as const).filter((step) => !facts[step]);
}

/**
 * What a look at the effect leads to: a correction that works ends the follow-up; one that does not
 * opens it again, and another correction is the next step.
 */
export function afterEffectCheck(
  verdict: EffectVerdict,
  note: string,
): { state: "open" | "closed"; effectCheck: string | null; correction?: null } {
  if (verdict === "effective") return { state: "closed", effectCheck: note };
  return { state: "open", effectCheck: null, correction: null };
}

/** How a step stands: written, the next to take, or after that one. */
export function stepStates(facts: FollowUp): { step: Step; standing: "done" | "next" | "later" }[] {
  const next = nextStep(facts);
  return STEPS.map((step) => ({
    step,
    standing: facts[step] ? "done" : step === next ? "next" : "later",
  }));
}
