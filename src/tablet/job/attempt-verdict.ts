import type { Answer } from "../../domain/acceptance/answer.ts";
import { Judge } from "../../domain/acceptance/judge.ts";
import type { Verdict } from "../../domain/acceptance/verdict.ts";
import type { JobState } from "./job-state.ts";

const judges = new WeakMap<JobState, Judge>();

/** The verdict on one attempt, as it was when it was taken. */
export function verdictOnAttempt(job: JobState, answer: Answer): Verdict | undefined {
  let judge = judges.get(job);
  if (!judge) {
    judge = new Judge(job.facts.plan, job.answers, job.context);
    judges.set(job, judge);
  }
  return judge.verdictOn(answer);
}
