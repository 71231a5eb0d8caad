// When a hold point is unmet, said once more and as plainly as can be, on drafts instead of plans.
import type { DraftAnswer, DraftItem, DraftJob } from "./random-job.ts";
import { keysOf } from "./random-job.ts";

interface Placed {
  draft: DraftAnswer;
  place: number;
}

const isBefore = (a: Placed, b: Placed): boolean =>
  a.draft.minute < b.draft.minute || (a.draft.minute === b.draft.minute && a.place < b.place);

/** Hold points that are unmet, as "item subject". */
export function unmetHoldPoints(job: DraftJob): string[] {
  const unmet: string[] = [];
  for (const [index, item] of job.items.entries()) {
    if (!item.holdPoint && !item.safetyCritical) continue;
    const keys = keysOf(job, item);
    if (keys.length === 0 && applies(job, item)) unmet.push(`${item.id} `);
    for (const [subject, key] of keys.entries()) {
      if (applies(job, item) && !isMet(job, index, subject)) unmet.push(`${item.id} ${key}`);
    }
  }
  return unmet;
}

function answersTo(job: DraftJob, index: number, subject: number): Placed[] {
  const isOnce = job.items[index]?.repeat === "once";
  return job.answers
    .map((draft, place) => ({ draft, place }))
    .filter(({ draft }) => draft.item === index && (isOnce || draft.subject === subject));
}

function lastOf(answers: Placed[]): Placed | undefined {
  return answers.reduce<Placed | undefined>(
    (last, next) => (last === undefined || isBefore(last, next) ? next : last),
    undefined,
  );
}

function applies(job: DraftJob, { condition }: DraftItem, before?: Placed): boolean {
  if (condition === "tt") return job.supply === "TT";
  if (condition === "inverter") return false;
  if (condition === "none") return true;
  const first = lastOf(answersTo(job, 0, 0).filter((one) => !before || isBefore(one, before)));
  return first === undefined || first.draft.good;
}

function isMet(job: DraftJob, index: number, subject: number): boolean {
  const item = job.items[index] as DraftItem;
  const last = lastOf(answersTo(job, index, subject));
  const hasArrived = job.photosArrived || (!item.needsPhoto && item.kind !== "photo");
  if (last && hasArrived && isGood(job, last) && !isToRepeat(job, index, subject, last))
    return true;
  return isConceded(job, index, subject, last);
}

function isConceded(
  job: DraftJob,
  index: number,
  subject: number,
  released: Placed | undefined,
): boolean {
  const item = job.items[index] as DraftItem;
  if (item.safetyCritical) return false;
  return job.concessions.some(
    (one) =>
      one.isLive &&
      one.item === index &&
      (item.repeat === "once" || one.subject === subject) &&
      one.grantedBy !== released?.draft.person,
  );
}

/** Every answer is weighed once: each may rest on all before it. */
const weighed = new WeakMap<DraftJob, Map<number, boolean>>();

function isGood(job: DraftJob, answer: Placed): boolean {
  const known = weighed.get(job) ?? new Map<number, boolean>();
  weighed.set(job, known);
  const good = known.get(answer.place) ?? isGoodByItself(job, answer);
  known.set(answer.place, good);
  return good;
}

function isGoodByItself(job: DraftJob, answer: Placed): boolean {
  const { draft } = answer;
  const item = job.items[draft.item] as DraftItem;
  if (isFault(job, draft)) return false;
  const needsTool = item.kind === "tighten" || (item.kind === "measure" && item.needsMeter);
  if (needsTool && draft.instrument !== "fit") return false;
  if ((item.kind === "photo" || item.needsPhoto) && !draft.hasPhoto) return false;
  return item.sequence === "mark" || isInPlace(job, item, answer);
}

const isFault = (job: DraftJob, { item, good }: DraftAnswer): boolean =>
  !good && job.items[item]?.kind !== "photo";

/** In the sequence of tests: what is before it, the supply, repeats, the breaker, the time. */
function isInPlace(job: DraftJob, item: DraftItem, answer: Placed): boolean {
  const { draft } = answer;
  const before = new Set(item.after);
  if (item.dwell) before.add(item.dwell.after);
  for (const [place, other] of job.items.entries()) {
    const isHold = other.holdPoint || other.safetyCritical;
    if (item.supply === "live" && other.supply === "dead" && isHold && place < draft.item)
      before.add(place);
  }
  const isOnce = item.repeat === "once";
  const hasFailed = faultsOf(job, draft.item, answer).some(
    (fault) => isOnce || fault.draft.subject === draft.subject,
  );
  if (hasFailed) for (const place of item.repeats) before.add(place);
  if (![...before].every((other) => wasMet(job, other, item, answer))) return false;
  return (
    (item.stand === "any" || breakerBefore(job, answer) === item.stand) &&
    isInTime(job, item, answer)
  );
}

/** Faults found by an item, for subjects that are there. */
function faultsOf(job: DraftJob, index: number, before?: Placed): Placed[] {
  const { length } = keysOf(job, job.items[index] as DraftItem);
  return [...Array(length).keys()]
    .flatMap((subject) => answersTo(job, index, subject))
    .filter((one) => isFault(job, one.draft) && (!before || isBefore(one, before)));
}

function breakerBefore(job: DraftJob, before: Placed): string | undefined {
  const moves = job.items.flatMap((item, index) =>
    item.leaves === "as it was"
      ? []
      : [...keysOf(job, item).keys()].flatMap((subject) => answersTo(job, index, subject)),
  );
  const last = lastOf(moves.filter((one) => isBefore(one, before) && isGood(job, one)));
  return last && job.items[last.draft.item]?.leaves;
}

function isInTime(job: DraftJob, item: DraftItem, answer: Placed): boolean {
  const { dwell } = item;
  if (!dwell) return true;
  const needed = job.items[dwell.after] as DraftItem;
  if (!applies(job, needed, answer)) return true;
  return [...keysOf(job, needed).keys()].every((subject) => {
    if (isAlike(needed, item) && subject !== answer.draft.subject) return true;
    const earlier = answersTo(job, dwell.after, subject).filter((one) => isBefore(one, answer));
    const last = lastOf(earlier);
    if (!last) return true;
    const waited = answer.draft.minute - last.draft.minute;
    return waited >= dwell.least && (dwell.most === undefined || waited <= dwell.most);
  });
}

const isAlike = (needed: DraftItem, item: DraftItem): boolean =>
  needed.repeat === item.repeat && needed.repeat !== "once";

/** Whether a fault found after an answer, by an item that says so, asks for it once more. */
function isToRepeat(
  job: DraftJob,
  index: number,
  subject: number,
  since: Placed,
  before?: Placed,
): boolean {
  const item = job.items[index] as DraftItem;
  if (item.sequence === "mark") return false;
  return job.items.some((tester, place) => {
    if (!tester.repeats.includes(index)) return false;
    return faultsOf(job, place, before).some(
      (fault) =>
        isBefore(since, fault) && (!isAlike(item, tester) || fault.draft.subject === subject),
    );
  });
}

/**
 * Whether an item that must come first had been met, for the same subject where it is asked alike.
 */
function wasMet(job: DraftJob, other: number, item: DraftItem, before: Placed): boolean {
  const needed = job.items[other] as DraftItem;
  const keys = keysOf(job, needed);
  if (keys.length === 0) return !applies(job, needed, before);
  return keys.every((_key, subject) => {
    if (isAlike(needed, item) && subject !== before.draft.subject) return true;
    const last = lastOf(answersTo(job, other, subject).filter((one) => isBefore(one, before)));
    if (last && isGood(job, last) && !isToRepeat(job, other, subject, last, before)) return true;
    return isConceded(job, other, subject, last) || !applies(job, needed, before);
  });
}
