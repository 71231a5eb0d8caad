// Requirement: the verdict on one item for one subject of a job: its last answer, then what came
// after it: photos that have not arrived, and a concession. Pure: the same plan, answers and facts
// give the same verdict whatever order the answers are handed in.
import type { CompiledItem, CompiledPlan } from "../plan/compile.ts";
import type { JobContext } from "../plan/context.ts";
import type { Item } from "../plan/item.ts";
import { type Subject, subjectsOf } from "../plan/subjects.ts";
import type { Answer } from "./answer.ts";
import { AnswersRead } from "./answers-read.ts";
import { LiveConcessions } from "./concessions.ts";
import { arrivalFinding } from "./evidence.ts";
import { AnswerJudge } from "./judge-answer.ts";
import { numberTest } from "./number-test.ts";
import type { Obstacle } from "./obstacle.ts";
import { repeatFinding } from "./repeat-demands.ts";
import { type Timeline, timelineOf } from "./timeline.ts";
import { withOwnUses } from "./torque-cycles.ts";
import { type Finding, laidOver, missing, notApplicable, type Verdict } from "./verdict.ts";

/** Judges the items of one job against one set of answers and facts. */
export class Judge {
  readonly #plan: CompiledPlan;
  readonly #context: JobContext;
  readonly #timeline: Timeline;
  readonly #read: AnswersRead;
  readonly #concessions: LiveConcessions;
  readonly #answers: AnswerJudge;
  readonly #subjects = new Map<Item, readonly Subject[]>();

  constructor(plan: CompiledPlan, answers: readonly Answer[], facts: JobContext) {
    const context = withOwnUses(facts, answers);
    this.#plan = plan;
    this.#context = context;
    this.#timeline = timelineOf(answers);
    this.#read = new AnswersRead(plan, this.#timeline, context);
    this.#concessions = new LiveConcessions(context);
    this.#answers = new AnswerJudge({
      plan,
      context,
      timeline: this.#timeline,
      read: this.#read,
      concessions: this.#concessions,
      subjects: (compiled) => this.subjects(compiled),
    });
  }

  subjects({ item }: CompiledItem): readonly Subject[] {
    if (!item.repeat) return subjectsOf(item, this.#context);
    const known = this.#subjects.get(item) ?? subjectsOf(item, this.#context);
    this.#subjects.set(item, known);
    return known;
  }

  /** Whether the item is asked for the subject, as things stand; undecided counts as asked. */
  applies(compiled: CompiledItem, subject: Subject): boolean {
    return this.#read.applies(compiled, subject);
  }

  /** The verdict on an item for a subject, as things stand. */
  verdict(compiled: CompiledItem, subject: Subject): Verdict {
    const { item } = compiled;
    const attempts = this.#timeline.attempts(item.id, subject.key);
    if (!this.applies(compiled, subject)) return { ...notApplicable(), attempts: attempts.length };
    const last = attempts.at(-1);
    const finding = last
      ? this.#standing(compiled, subject, last)
      : this.#unanswered(compiled, subject);
    const verdict: Verdict = { ...finding, attempts: attempts.length };
    if (last) verdict.answerId = last.id;
    return verdict.clears ? verdict : this.#conceded(compiled, subject, verdict, last);
  }

  /**
   * The verdict on this very answer, whether or not it is the last one; undefined for no subject.
   */
  verdictOn(answer: Answer): Verdict | undefined {
    const compiled = this.#plan.byId.get(answer.itemId);
    const subject = compiled && this.subjects(compiled).find(({ key }) => key === answer.subject);
    if (!compiled || !subject) return undefined;
    const attempts = this.#timeline.attempts(answer.itemId, answer.subject);
    return {
      ...this.#arrived(compiled, answer, this.#answers.finding(compiled, subject, answer)),
      answerId: answer.id,
      attempts: attempts.findIndex(({ id }) => id === answer.id) + 1,
    };
  }

  /** What would keep the item from being done for the subject at `context.now`; at most `most`. */
  obstacles(compiled: CompiledItem, subject: Subject, most: number): Obstacle[] {
    if (compiled.needs.length === 0 && !compiled.sequence) return [];
    return this.#answers.sequence.several(compiled, subject, most, {
      id: "",
      itemId: compiled.item.id,
      subject: subject.key,
      takenAt: this.#context.now,
      personId: "",
      order: Number.POSITIVE_INFINITY,
      value: undefined,
    });
  }

  /** The verdict on the last answer, and what has come over it since. */
  #standing(compiled: CompiledItem, subject: Subject, last: Answer): Finding {
    const finding = this.#answers.finding(compiled, subject, last);
    if (!finding.clears || !compiled.sequence) return this.#arrived(compiled, last, finding);
    const failure = this.#answers.sequence.demands.outstanding(compiled, subject, last);
    if (!failure) return this.#arrived(compiled, last, finding);
    const repeat = laidOver(finding, repeatFinding(failure, this.#context.site.timeZone));
    if (compiled.item.sequence !== "mark") return repeat;
    return this.#arrived(compiled, last, { ...repeat, outcome: "out-of-sequence", clears: true });
  }

  #arrived({ item }: CompiledItem, answer: Answer, finding: Finding): Finding {
    if (!finding.clears) return finding;
    const waiting = arrivalFinding(item, answer, this.#context.photosHeld);
    return waiting ? laidOver(finding, waiting) : finding;
  }

  #unanswered(compiled: CompiledItem, subject: Subject): Finding {
    const { item, limit } = compiled;
    const toClear = item.toClear ?? item.do;
    if (!limit || limit.kind === "one-of") {
      return missing("missing", "There is no answer yet.", toClear);
    }
    const unit = "unit" in item ? item.unit : "";
    const names = () => this.#read.limitNames(compiled, subject);
    const worked = numberTest(limit, unit, names);
    if (!worked.ok) return missing("missing", "There is no answer yet.", toClear);
    const { needed } = worked.test;
    return { ...missing("missing", `There is no answer yet; needed ${needed}.`, toClear), needed };
  }

  #conceded(
    { item }: CompiledItem,
    subject: Subject,
    verdict: Verdict,
    last: Answer | undefined,
  ): Verdict {
    const concession = this.#concessions.releasing(item, subject.key, last);
    if (!concession) return verdict;
    return {
      ...verdict,
      outcome: "conceded",
      clears: true,
      code: "conceded",
      sentence: `${verdict.sentence} Released by concession.`,
      concessionId: concession.id,
    };
  }
}

/**
 * The verdict on one answer among the answers of its job.
 * @returns undefined when the plan has no such item, or it is not asked for such a subject
 */
export function verdictForAnswer(
  plan: CompiledPlan,
  answer: Answer,
  answers: readonly Answer[],
  context: JobContext,
): Verdict | undefined {
  const others = answers.filter(({ id }) => id !== answer.id);
  return new Judge(plan, [...others, answer], context).verdictOn(answer);
}

/**
 * The verdict on an item for a subject of it, as things stand.
 * @throws RangeError when the plan has no such item, or it is not asked for such a subject
 */
export function judge(
  plan: CompiledPlan,
  itemId: string,
  subject: string,
  answers: readonly Answer[],
  context: JobContext,
): Verdict {
  const judging = new Judge(plan, answers, context);
  const compiled = plan.byId.get(itemId);
  const asked = compiled && judging.subjects(compiled).find(({ key }) => key === subject);
  if (!compiled || !asked) throw new RangeError(`${itemId} is not asked for "${subject}"`);
  return judging.verdict(compiled, asked);
}
