// Answers as a crew gives them on a good day, in the plan's order and some minutes apart, except
// where the scenario says otherwise. What is asked, of which unit and within which limit, is read
// off the plan, so that a changed plan is answered as it stands.
import { uuidv7 } from "uuidv7";
import { jobNames, subjectNames } from "../domain/acceptance/names.ts";
import type { CompiledItem, CompiledPlan } from "../domain/plan/compile.ts";
import { type Subject, subjectsOf } from "../domain/plan/subjects.ts";
import type { NewAnswer } from "../features/answers/schemas.ts";
import type { Answering, Names, Value } from "./answering.ts";
import { localTimeText, minutesAfter } from "./calendar.ts";
import type { Exception } from "./tables/jobs.ts";
import { NOTES } from "./tables/readings.ts";
import { usualValue } from "./usual-values.ts";

const MINUTES_BETWEEN = 4;

export function usualAnswers(answering: Answering): NewAnswer[] {
  const { plan, context, work } = answering;
  const answers: NewAnswer[] = [];
  const known = new Map<string, unknown>();
  const job = jobNames(context);
  let takenAt = answering.startsAt;
  for (const compiled of plan.items) {
    const { id, repeat } = compiled.item;
    for (const [index, subject] of subjectsOf(compiled.item, context).entries()) {
      const names = subjectNames(job, subject, answersFor(plan, subject, known));
      if (!isAsked(compiled, names) || work.without?.includes(id)) continue;
      takenAt = notBefore(takenAt, earliest(compiled, answers));
      for (const attempt of attemptsAt(answering, compiled, subject, index, names)) {
        const at = localTimeText(takenAt, context.site.timeZone);
        answers.push({ ...attempt, id: uuidv7(), takenAt: at });
        known.set(keyOf(id, repeat ? subject.key : ""), plain(attempt.value));
        takenAt = minutesAfter(takenAt, MINUTES_BETWEEN);
      }
    }
    if (work.until === id) break;
  }
  return answers;
}

/** When the waiting time of the item is over, counted from the last answer it waits for. */
function earliest({ item }: CompiledItem, answers: readonly NewAnswer[]): Date | undefined {
  const { dwell } = item;
  const last = dwell && answers.findLast((answer) => answer.itemId === dwell.after);
  return last && minutesAfter(new Date(last.takenAt), dwell.atLeastS / 60);
}

const notBefore = (time: Date, earliestAt: Date | undefined): Date =>
  earliestAt && earliestAt > time ? earliestAt : time;

const keyOf = (itemId: string, subject: string): string => `${itemId}\n${subject}`;

function isAsked({ applies }: CompiledItem, names: Names): boolean {
  if (!applies) return true;
  const result = applies.evaluate(names);
  return !(result.ok && result.value === false);
}

function answersFor(
  plan: CompiledPlan,
  subject: Subject,
  known: ReadonlyMap<string, unknown>,
): Names {
  const answers: Names = {};
  for (const { item } of plan.items) {
    const value = known.get(keyOf(item.id, item.repeat ? subject.key : ""));
    if (value !== undefined) answers[item.id] = value;
  }
  return answers;
}

/** The answer as expressions of later items see it. */
function plain(value: Value): unknown {
  if ("number" in value) return Number(value.number);
  if ("setting" in value) return Number(value.setting.number);
  if ("count" in value) return value.count;
  if ("choice" in value) return value.choice;
  if ("text" in value) return value.text;
  return "done" in value ? value.done : undefined;
}

type Attempt = Omit<NewAnswer, "id" | "takenAt">;

function attemptsAt(
  answering: Answering,
  compiled: CompiledItem,
  subject: Subject,
  index: number,
  names: Names,
): Attempt[] {
  const { item } = compiled;
  const exception = answering.work.exceptions?.find(
    (one: Exception) =>
      one.item === item.id && (one.subject === undefined || one.subject === index + 1),
  );
  const attempts: Exception["attempts"] = exception?.attempts ?? [
    { value: usualValue(answering, compiled, subject, names) },
  ];
  const wanted = item.instrument?.class ?? (item.kind === "tighten" ? "torque-wrench" : undefined);
  const pictures = Math.max(item.evidence?.photos ?? 0, item.kind === "photo" ? item.photos : 0);
  return attempts.map(({ value, instrument, note = NOTES[item.id] }) => ({
    itemId: item.id,
    subject: subject.key,
    value: value as Value,
    ...(wanted ? { instrumentId: answering.instrumentId(instrument ?? wanted) } : {}),
    ...(pictures > 0 ? { photos: answering.picturesFor(item.id, pictures) } : {}),
    ...(note ? { note } : {}),
  }));
}
