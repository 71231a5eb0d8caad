// The verdict on what is typed, before it is kept: by the same rules as the server's, among the
// answers that are known here.
import type { Answer } from "../../domain/acceptance/answer.ts";
import { verdictForAnswer } from "../../domain/acceptance/judge.ts";
import type { Verdict } from "../../domain/acceptance/verdict.ts";
import type { Item } from "../../domain/plan/item.ts";
import { phrase } from "../language/spoken.ts";
import { type Draft, draftPhotos, draftProblem, draftValue } from "./draft.ts";
import type { ItemState, JobState } from "./job-state.ts";

export type Preview =
  /** Something of the value is missing. */
  | { state: "incomplete" }
  | { state: "unreadable"; problem: string }
  | { state: "judged"; verdict: Verdict };

export interface Taking {
  personId: string;
  /** RFC 3339 with offset. */
  takenAt: string;
  instrumentId?: string;
}

/** What the verdict would be if the draft were kept now. */
export function preview(job: JobState, state: ItemState, draft: Draft, taking: Taking): Preview {
  const { item } = state.compiled;
  const value = draftValue(item, draft);
  if (!value) return { state: "incomplete" };
  const problem = draftProblem(item, value);
  if (problem !== undefined) return { state: "unreadable", problem };
  const answer: Answer = {
    ...taking,
    id: "ffffffff-ffff-7fff-bfff-ffffffffffff",
    itemId: item.id,
    subject: state.subject.key,
    photos: draftPhotos(item, draft).map(({ sha256 }) => sha256),
    order: Number.MAX_SAFE_INTEGER,
    value,
    ...(draft.note?.trim() ? { note: draft.note.trim() } : {}),
  };
  const verdict = verdictForAnswer(job.facts.plan, answer, job.answers, job.context);
  return verdict ? { state: "judged", verdict } : { state: "incomplete" };
}

/** Why the draft cannot be kept as it is; undefined when it can. */
export function whyNotKept(item: Item, draft: Draft): string | undefined {
  const value = draftValue(item, draft);
  return value ? draftProblem(item, value) : phrase("tabletItem.incomplete");
}
