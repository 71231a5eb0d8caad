// Requirement: a bound that is computed from other answers is computed from those that were there
// when the reading was taken: later answers never change a verdict that was given.
import type { CompiledItem, CompiledPlan } from "../plan/compile.ts";
import type { JobContext } from "../plan/context.ts";
import type { Expression } from "../plan/expression.ts";
import { type Subject, subjectsOf } from "../plan/subjects.ts";
import type { Answer } from "./answer.ts";
import { jobNames, plainValue, subjectNames } from "./names.ts";
import type { Timeline } from "./timeline.ts";

/** Supplies expressions with the answers of one job, as of any moment. */
export class AnswersRead {
  readonly #plan: CompiledPlan;
  readonly #context: JobContext;
  readonly #timeline: Timeline;
  readonly #job: Record<string, unknown>;
  /** Whether items apply whose condition reads no answer: the same at every moment. */
  readonly #constant = new Map<string, boolean>();

  constructor(plan: CompiledPlan, timeline: Timeline, context: JobContext) {
    this.#plan = plan;
    this.#context = context;
    this.#timeline = timeline;
    this.#job = jobNames(context);
  }

  /**
   * Whether the item was asked for the subject before `moment`, or is now; undecided counts as
   * asked.
   */
  applies(compiled: CompiledItem, subject: Subject, moment?: Answer): boolean {
    const { applies, item } = compiled;
    if (!applies) return true;
    if (applies.uses.length > 0) return this.#evaluate(applies, subject, moment);
    const key = `${item.id}\n${subject.key}`;
    const known = this.#constant.get(key) ?? this.#evaluate(applies, subject, moment);
    this.#constant.set(key, known);
    return known;
  }

  /** Whether the item is not asked for the subject, whatever is answered. */
  isNeverAsked(compiled: CompiledItem, subject: Subject): boolean {
    return compiled.applies?.uses.length === 0 && !this.applies(compiled, subject);
  }

  #evaluate(applies: Expression, subject: Subject, moment: Answer | undefined): boolean {
    const names = this.#names(applies.uses, new Set(applies.usesAll), subject, moment);
    const result = applies.evaluate(names);
    return !(result.ok && result.value === false);
  }

  /** What the limit of the item may read for the subject before `moment`, or now. */
  limitNames(compiled: CompiledItem, subject: Subject, moment?: Answer): Record<string, unknown> {
    return this.#names(compiled.reads, new Set(compiled.needsAll), subject, moment);
  }

  #names(
    uses: Expression["uses"],
    usesAll: ReadonlySet<string>,
    subject: Subject,
    moment: Answer | undefined,
  ): Record<string, unknown> {
    const answers: Record<string, unknown> = Object.create(null);
    const readings: Record<string, unknown> = Object.create(null);
    for (const id of uses) {
      const other = this.#plan.byId.get(id);
      if (!other) continue;
      const { repeat } = other.item;
      const own = this.#value(other, repeat ? subject.key : "", moment);
      if (own !== undefined) answers[id] = own;
      if (repeat && usesAll.has(id)) readings[id] = this.#readings(other, moment);
    }
    return subjectNames(this.#job, subject, answers, readings);
  }

  /** The readings of all subjects; undefined while one is missing, or where there is no subject. */
  #readings(other: CompiledItem, moment: Answer | undefined): unknown[] | undefined {
    const values = subjectsOf(other.item, this.#context).map((subject) =>
      this.#value(other, subject.key, moment),
    );
    return values.length === 0 || values.includes(undefined) ? undefined : values;
  }

  #value({ item }: CompiledItem, subject: string, moment: Answer | undefined): unknown {
    const answer = moment
      ? this.#timeline.lastBefore(item.id, subject, moment)
      : this.#timeline.last(item.id, subject);
    return answer && plainValue(item, answer);
  }
}
