// Which item the screen leads to. What the person set aside is left for later and never forgotten:
// once nothing else can be done it comes again.
import { findItem, type ItemState, type JobState, keyOf } from "./job-state.ts";

export type NextItem =
  | { kind: "do"; state: ItemState }
  /** Nothing can be done before then. */
  | { kind: "wait"; state: ItemState; untilMs: number }
  /** All that is left was set aside, or waits for what was. */
  | { kind: "set-aside"; state: ItemState }
  /** What is left cannot be done on this tablet: a unit is missing from the job. */
  | { kind: "stuck"; sentence: string }
  | { kind: "all-met" };

/**
 * The next item of a job.
 * @param setAside keys (see keyOf) of items that the person left for later
 */
export function nextItem(job: JobState, setAside: ReadonlySet<string>): NextItem {
  const { next, steps } = job.next;
  const led = next && findItem(job, next.itemId, next.subject);
  if (led && !setAside.has(keyOf(led))) return { kind: "do", state: led };
  const open = job.items.filter(isLeft);
  const free = open.find((state) => state.step.state === "open" && !setAside.has(keyOf(state)));
  if (free) return { kind: "do", state: free };
  const aside = open.find((state) => setAside.has(keyOf(state)));
  if (aside) return { kind: "set-aside", state: aside };
  const waiting = firstWaiting(open);
  if (waiting) return waiting;
  const stuck = open[0]?.step ?? steps.find(({ code }) => code === "no-subjects");
  if (stuck) return { kind: "stuck", sentence: stuck.blockedBy[0]?.sentence ?? stuck.sentence };
  return { kind: "all-met" };
}

/** Not met; an answered item that is no hold point stands as it is. */
const isLeft = ({ verdict, compiled, attempts }: ItemState): boolean =>
  !verdict.clears && (compiled.holdPoint || attempts.length === 0);

function firstWaiting(open: readonly ItemState[]): NextItem | undefined {
  let first: Extract<NextItem, { kind: "wait" }> | undefined;
  for (const state of open) {
    if (state.step.waitsUntil === undefined) continue;
    const untilMs = Date.parse(state.step.waitsUntil);
    if (!first || untilMs < first.untilMs) first = { kind: "wait", state, untilMs };
  }
  return first;
}
