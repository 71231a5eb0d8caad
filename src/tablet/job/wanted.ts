// What an item needs, worked out for its subject: the limit in words, and where switches must
// stand.
import { AnswersRead } from "../../domain/acceptance/answers-read.ts";
import { numberTest } from "../../domain/acceptance/number-test.ts";
import { timelineOf } from "../../domain/acceptance/timeline.ts";
import { phrase, retold } from "../language/spoken.ts";
import { anyOf } from "../language/written.ts";
import type { ItemState, JobState } from "./job-state.ts";
import { neededHere } from "./typed-unit.ts";

const reads = new WeakMap<JobState, AnswersRead>();

function readOf(job: JobState): AnswersRead {
  let read = reads.get(job);
  if (!read) {
    read = new AnswersRead(job.facts.plan, timelineOf(job.answers), job.context);
    reads.set(job, read);
  }
  return read;
}

/** "at least 38 V"; undefined where the item has no limit, or it cannot be worked out yet. */
export function neededWords(job: JobState, { compiled, subject }: ItemState): string | undefined {
  const { item, limit } = compiled;
  if (!limit) return undefined;
  if (limit.kind === "one-of")
    return phrase("tabletItem.oneOf", { values: anyOf(limit.values.map(String)) });
  const unit = "unit" in item ? item.unit : "";
  const worked = numberTest(limit, unit, () => readOf(job).limitNames(compiled, subject));
  if (!worked.ok) return undefined;
  const { interval } = worked.test;
  const needed = retold(worked.test.needed);
  const here = interval && neededHere(interval, unit, job.packet);
  return here === undefined
    ? needed
    : phrase("tabletItem.neededHere", { needed, here: retold(here) });
}

export interface WantedPosition {
  switch: string;
  /** Undefined while what it is computed from is missing. */
  position?: string;
}

/** Where each switch of a `set` item must stand. */
export function wantedPositions(
  job: JobState,
  { compiled, subject }: ItemState,
): readonly WantedPosition[] {
  return (compiled.positions ?? []).map(({ switch: name, position }) => {
    if (typeof position === "string") return { switch: name, position };
    const result = position.evaluate(readOf(job).limitNames(compiled, subject));
    return result.ok ? { switch: name, position: String(result.value) } : { switch: name };
  });
}
