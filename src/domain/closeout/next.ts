// Requirement: a screen leads to one next thing to do: the first item in working order that is not
// met, or what must be done, or done again, before it can be.
import type { Answer } from "../acceptance/answer.ts";
import { instantText } from "../acceptance/clock-time.ts";
import { Judge } from "../acceptance/judge.ts";
import { type Obstacle, obstacleFinding } from "../acceptance/obstacle.ts";
import { NOBODY } from "../acceptance/surroundings.ts";
import type { Outcome } from "../acceptance/verdict.ts";
import type { CompiledItem, CompiledPlan } from "../plan/compile.ts";
import type { JobContext } from "../plan/context.ts";
import type { Subject } from "../plan/subjects.ts";
import { workingOrder } from "../plan/working-order.ts";
import { verdictOnNobody } from "./no-subjects.ts";
import { WayOut } from "./way-out.ts";

export type StepState = "met" | "open" | "blocked" | "waits" | "not-applicable";

/** Why a step cannot be done now. */
export interface Hindrance {
  /** As in verdicts: "out-of-sequence", "breaker-state", "too-soon", "too-late", "no-subjects". */
  code: string;
  /** What would be said of an answer taken now. */
  sentence: string;
  toClear: string;
  /** What is to be done first, or again; left out where nothing but waiting helps. */
  itemId?: string;
  subject?: string;
}

/** One item for one subject. */
export interface Step {
  itemId: string;
  stageId: string;
  subject: string;
  subjectLabel: string;
  holdPoint: boolean;
  /**
   * open: not met, and can be done now; waits: time is wanting, and at most a breaker is to be
   * moved once it has passed.
   */
  state: StepState;
  /** Of the verdict as things stand; attempts: how many answers there are. */
  outcome: Outcome;
  code: string;
  sentence: string;
  attempts: number;
  /** Of a step that is blocked or waits; at most five. */
  blockedBy: Hindrance[];
  /** Instant from which on a step that waits can be done (RFC 3339, UTC). */
  waitsUntil?: string;
}

export interface NextSteps {
  /** All steps in working order; an item asked for units of which there is none has one. */
  steps: Step[];
  /** What to do now; left out where nothing is left, or nothing can be done yet. */
  next?: {
    itemId: string;
    subject: string;
    /** It has an answer already, met or not. */
    isAgain: boolean;
  };
  /** Where there is nothing to do now: the first instant at which a step stops waiting. */
  waitsUntil?: string;
}

const HINDRANCES_MOST = 5;

/**
 * What is met, what can be done now and what cannot, and which of it comes next. An item that only
 * marks what is out of sequence is led to in its place like any other. What is no hold point and
 * has an answer is passed over, whatever the answer was.
 * @param context as for the gate; `now` is when the next item would be done
 */
export function nextOf(
  plan: CompiledPlan,
  answers: readonly Answer[],
  context: JobContext,
): NextSteps {
  const judge = new Judge(plan, answers, context);
  const way = new WayOut((compiled, subject) =>
    judge.obstacles(compiled, subject, HINDRANCES_MOST),
  );
  const steps: Step[] = [];
  for (const compiled of workingOrder(plan.items)) {
    const subjects = judge.subjects(compiled);
    if (subjects.length === 0) steps.push(emptyStep(judge, compiled));
    for (const subject of subjects) {
      const { step, obstacles } = stepOf(judge, compiled, subject, context);
      steps.push(step);
      way.add(compiled, subject, step, obstacles);
    }
  }
  const { next, waitsUntilMs } = way.find();
  if (next) return { steps, next };
  return waitsUntilMs === undefined ? { steps } : { steps, waitsUntil: instantText(waitsUntilMs) };
}

function stepOf(
  judge: Judge,
  compiled: CompiledItem,
  subject: Subject,
  { site }: JobContext,
): { step: Step; obstacles: Obstacle[] } {
  const verdict = judge.verdict(compiled, subject);
  const obstacles = verdict.clears ? [] : judge.obstacles(compiled, subject, HINDRANCES_MOST);
  const endMs = waitEndMs(obstacles);
  const step: Step = {
    ...about(compiled, subject),
    state: stateOf(verdict, obstacles, endMs),
    outcome: verdict.outcome,
    code: verdict.code,
    sentence: verdict.sentence,
    attempts: verdict.attempts,
    blockedBy: obstacles.map((obstacle) => hindranceOf(obstacle, site.timeZone)),
  };
  if (endMs !== undefined) step.waitsUntil = instantText(endMs);
  return { step, obstacles };
}

const about = ({ item, stageId, holdPoint }: CompiledItem, { key, label }: Subject) => ({
  itemId: item.id,
  stageId,
  subject: key,
  subjectLabel: label,
  holdPoint,
});

function stateOf(
  { outcome, clears }: { outcome: Outcome; clears: boolean },
  obstacles: readonly Obstacle[],
  endMs: number | undefined,
): StepState {
  if (outcome === "not-applicable") return "not-applicable";
  if (clears) return "met";
  if (obstacles.length === 0) return "open";
  return endMs === undefined ? "blocked" : "waits";
}

/** When it can be done, where nothing else must be met before. */
function waitEndMs(obstacles: readonly Obstacle[]): number | undefined {
  if (obstacles.some(({ kind }) => kind === "unmet")) return undefined;
  const [endMs] = obstacles.flatMap((one) => (one.kind === "too-soon" ? [one.limitAtMs] : []));
  return endMs;
}

function hindranceOf(obstacle: Obstacle, timeZone: string): Hindrance {
  const { code, sentence, toClear } = obstacleFinding(obstacle, timeZone);
  const told = { code, sentence, toClear };
  switch (obstacle.kind) {
    case "unmet":
    case "too-late":
      return { ...told, itemId: obstacle.needed.item.id, subject: obstacle.subject.key };
    case "breaker": {
      const [way] = obstacle.ways;
      return way ? { ...told, itemId: way.item.id } : told;
    }
    case "too-soon":
      return told;
  }
}

/** Of a set without members. */
function emptyStep(judge: Judge, compiled: CompiledItem): Step {
  const { outcome, clears, code, sentence, toClear, attempts } = verdictOnNobody(judge, compiled);
  return {
    ...about(compiled, NOBODY),
    state: clears ? "not-applicable" : "blocked",
    ...{ outcome, code, sentence, attempts },
    blockedBy: toClear === undefined ? [] : [{ code, sentence, toClear }],
  };
}
