// What answers are judged among, and how one judgement asks for another.
import type { CompiledItem, CompiledPlan } from "../plan/compile.ts";
import type { JobContext } from "../plan/context.ts";
import { type Subject, sameSubjects } from "../plan/subjects.ts";
import type { Answer } from "./answer.ts";
import type { AnswersRead } from "./answers-read.ts";
import type { LiveConcessions } from "./concessions.ts";
import type { Timeline } from "./timeline.ts";
import type { Finding } from "./verdict.ts";

/** What an answer is judged among. */
export interface Surroundings {
  plan: CompiledPlan;
  context: JobContext;
  timeline: Timeline;
  read: AnswersRead;
  concessions: LiveConcessions;
  subjects: (compiled: CompiledItem) => readonly Subject[];
}

/** The judgement on one answer; each rests on what was answered before it and on nothing later. */
export type Findings = (compiled: CompiledItem, subject: Subject, answer: Answer) => Finding;

/** Stands for the members of a set that has none. */
export const NOBODY: Subject = { key: "", label: "" };

/**
 * Whether one item speaks of another for its own subject only: a pack's second test of that pack's
 * first, unless its limit reads the first of all packs.
 */
export const isOwnSubject = (compiled: CompiledItem, other: CompiledItem): boolean =>
  !compiled.needsAll.includes(other.item.id) && sameSubjects(compiled.item, other.item);
