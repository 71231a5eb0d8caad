// Requirement: an author begins from a sample that passes and changes it, so that what a plan
// refuses is seen one change at a time; where no passing answer can be worked out, it is said.
import { Temporal } from "temporal-polyfill";
import { type Answer, parseAnswerValue } from "../acceptance/answer.ts";
import { AnswersRead } from "../acceptance/answers-read.ts";
import { judgeValue } from "../acceptance/judge-value.ts";
import { timelineOf } from "../acceptance/timeline.ts";
import type { CompiledItem, CompiledPlan } from "./compile.ts";
import type { JobContext, SiteFacts } from "./context.ts";
import { type Attributes, SAMPLE_SITE, sampleAttributes, sampleContext } from "./sample-context.ts";
import { type RawValue, type SampleFacts, valuesToTry } from "./sample-values.ts";
import { type Subject, sameSubjects, subjectsOf } from "./subjects.ts";
import { tryPlan } from "./trial.ts";
import { workingOrder } from "./working-order.ts";

export interface Sample {
  context: JobContext;
  answers: Answer[];
  /** Figures of product models that were made up. */
  assumed: Attributes;
  /** Where the sample does not pass, and why. */
  notDerived: { itemId: string; subject: string; sentence: string }[];
}

const BETWEEN_MS = 30_000;
const PERSON = "sample-person";

/**
 * A job's facts and answers that pass, worked out from its plan.
 * @param startsAt RFC 3339 time of its first answer
 * @param site facts that are to be other than those of a plain site
 */
export function sampleFor(
  plan: CompiledPlan,
  startsAt: string,
  site: Partial<SiteFacts> = {},
): Sample {
  const facts = sampleContext(plan, { ...SAMPLE_SITE, ...site }, startsAt);
  const work = new SampleWork(plan, { ...facts, now: startsAt });
  for (const compiled of workingOrder(plan.items)) work.answer(compiled);
  const { answers } = work;
  const context = { ...facts, now: timeText(work.clockMs + BETWEEN_MS) };
  const notDerived = tryPlan(plan, answers, context).items.flatMap(
    ({ itemId, subject, verdict: { clears, sentence } }) =>
      clears ? [] : [{ itemId, subject, sentence }],
  );
  return { context, answers, assumed: sampleAttributes(plan.plan), notDerived };
}

const timeText = (epochMs: number): string =>
  Temporal.Instant.fromEpochMilliseconds(epochMs).toString();

/** The answers of one made-up day, in the order they are taken. */
class SampleWork {
  readonly answers: Answer[] = [];
  readonly #plan: CompiledPlan;
  readonly #context: JobContext;
  clockMs: number;

  constructor(plan: CompiledPlan, context: JobContext) {
    this.#plan = plan;
    this.#context = context;
    this.clockMs = Date.parse(context.now);
  }

  answer(compiled: CompiledItem): void {
    const read = new AnswersRead(this.#plan, timelineOf(this.answers), this.#context);
    for (const subject of subjectsOf(compiled.item, this.#context)) {
      if (!read.applies(compiled, subject)) continue;
      const names = () => read.limitNames(compiled, subject);
      const value = this.#passing(compiled, { subject, context: this.#context, names });
      if (value) this.#keep(compiled, subject, value);
    }
  }

  /** The first value that the limit accepts. */
  #passing(compiled: CompiledItem, facts: SampleFacts): RawValue | undefined {
    const { item } = compiled;
    const own = "decisionRule" in item ? item.decisionRule : undefined;
    const rule = own ?? this.#plan.plan.decisionRule;
    const instrument = this.#instrument(compiled);
    const { subject, names } = facts;
    return valuesToTry(compiled, facts).find((raw) => {
      const parsed = parseAnswerValue(item, raw);
      if (!parsed.ok) return false;
      const { units } = this.#context;
      const around = { rule, instrument, unit: subject.unit, units, names };
      return judgeValue(compiled, parsed.value, around).clears;
    });
  }

  #instrument({ item }: CompiledItem): JobContext["instruments"][number] | undefined {
    const wanted = item.instrument?.class ?? (item.kind === "tighten" ? "torque-wrench" : "");
    return this.#context.instruments.find((one) => one.class === wanted);
  }

  #keep(compiled: CompiledItem, subject: Subject, value: RawValue): void {
    const { item } = compiled;
    this.clockMs = Math.max(this.clockMs + BETWEEN_MS, this.#earliestMs(compiled, subject));
    const order = this.answers.length + 1;
    const instrument = this.#instrument(compiled);
    const photos = Math.max(item.evidence?.photos ?? 0, item.kind === "photo" ? item.photos : 0);
    const names = Array.from({ length: photos }, (_, index) => pictureName(order, index));
    this.answers.push({
      ...{ id: `answer-${order}`, itemId: item.id, subject: subject.key, order, value },
      ...{ takenAt: timeText(this.clockMs), personId: PERSON },
      ...(instrument ? { instrumentId: instrument.id } : {}),
      ...(photos > 0 ? { photos: names } : {}),
      ...(item.evidence?.note ? { note: "As found." } : {}),
    });
  }

  /** When the item's waiting time is over. */
  #earliestMs({ item }: CompiledItem, subject: Subject): number {
    const { dwell } = item;
    const before = dwell && this.#plan.byId.get(dwell.after)?.item;
    if (!before) return 0;
    const isOwn = before.repeat !== undefined && sameSubjects(item, before);
    const met = this.answers.filter(
      (answer) => answer.itemId === before.id && (!isOwn || answer.subject === subject.key),
    );
    return Date.parse(met.at(-1)?.takenAt ?? "1970-01-01T00:00:00Z") + dwell.atLeastS * 1000;
  }
}

/** A name like the SHA-256 of a picture, of no picture. */
const pictureName = (order: number, index: number): string =>
  String(order * 100 + index).padStart(64, "0");
