// The values that a plan's expressions may read, gathered for one subject at one moment.
import type { JobContext } from "../plan/context.ts";
import type { Item } from "../plan/item.ts";
import { COUNT_NAMES } from "../plan/names.ts";
import type { Subject } from "../plan/subjects.ts";
import { type Answer, parseAnswerValue } from "./answer.ts";

/** The part of the names that does not change during a judging. */
export function jobNames(context: JobContext): Record<string, unknown> {
  const count: Record<string, number> = Object.fromEntries(
    Object.values(COUNT_NAMES).map((name) => [name, 0]),
  );
  for (const unit of context.units) {
    const name = COUNT_NAMES[unit.kind];
    count[name] = (count[name] ?? 0) + 1;
  }
  const { supply, region, country } = context.site;
  return { site: { supply, region, country }, count };
}

/** The names for one subject: its unit and model where it is one, and the answers it may read. */
export function subjectNames(
  job: Record<string, unknown>,
  subject: Subject,
  answers: Record<string, unknown>,
  readings: Record<string, unknown> = {},
): Record<string, unknown> {
  const { unit } = subject;
  if (!unit) return { ...job, answers, readings };
  return {
    ...job,
    answers,
    readings,
    model: unit.attributes,
    unit: {
      serial: unit.serial,
      kind: unit.kind,
      hardwareRevision: unit.hardwareRevision,
      position: unit.position,
    },
  };
}

/**
 * An answer as an expression sees it: numbers in the item's unit; undefined if it cannot be read.
 */
export function plainValue(item: Item, answer: Answer): number | string | boolean | undefined {
  const parsed = parseAnswerValue(item, answer.value);
  if (!parsed.ok) return undefined;
  const { value } = parsed;
  switch (value.kind) {
    case "measure":
      return value.qualifier ? undefined : value.number;
    case "tighten":
      return value.setting.qualifier ? undefined : value.setting.number;
    case "count":
      return value.count;
    case "confirm":
      return value.done;
    case "choose":
      return value.choice;
    case "identify":
      return value.text;
    default:
      return undefined;
  }
}
