// Requirement: attempts are kept, the last one counts, and a verdict looks only at what had been
// answered when its own answer was taken: what comes later never changes it (blueprint "Reading →
// verdict").
import type { Answer } from "./answer.ts";

/** The answers of one job in the order they were taken; ties by receipt, then by id. */
export interface Timeline {
  /** Attempts for an item and subject, first to last. */
  attempts(itemId: string, subject: string): readonly Answer[];
  last(itemId: string, subject: string): Answer | undefined;
  /** The last attempt taken no later than `moment`, and not `moment` itself. */
  lastBefore(itemId: string, subject: string, moment: Answer): Answer | undefined;
}

const NONE: readonly Answer[] = [];

/** Of one item: most are asked once, so the first subject stands by itself. */
interface OfItem {
  readonly subject: string;
  readonly list: Answer[];
  others?: Map<string, Answer[]>;
}

/** Sorts the answers by item, subject and moment. */
export function timelineOf(answers: readonly Answer[]): Timeline {
  const byItem = new Map<string, OfItem>();
  const several: Answer[][] = [];
  for (const answer of answers) {
    const { itemId, subject } = answer;
    const ofItem = byItem.get(itemId);
    const list = ofItem && listOf(ofItem, subject);
    if (list) {
      if (list.push(answer) === 2) several.push(list);
    } else if (ofItem) {
      ofItem.others ??= new Map();
      ofItem.others.set(subject, [answer]);
    } else byItem.set(itemId, { subject, list: [answer] });
  }
  for (const list of several) list.sort(byMoment);
  const attempts = (itemId: string, subject: string): readonly Answer[] => {
    const ofItem = byItem.get(itemId);
    return (ofItem && listOf(ofItem, subject)) ?? NONE;
  };
  return {
    attempts,
    last: (itemId, subject) => attempts(itemId, subject).at(-1),
    lastBefore: (itemId, subject, moment) =>
      attempts(itemId, subject).findLast((other) => byMoment(other, moment) < 0),
  };
}

const listOf = (ofItem: OfItem, subject: string): Answer[] | undefined =>
  ofItem.subject === subject ? ofItem.list : ofItem.others?.get(subject);

/** Negative when `left` was taken first. */
export function byMoment(left: Answer, right: Answer): number {
  if (left.takenAt !== right.takenAt) {
    if (isWrittenAlike(left.takenAt, right.takenAt)) return left.takenAt < right.takenAt ? -1 : 1;
    const difference = Date.parse(left.takenAt) - Date.parse(right.takenAt);
    if (difference !== 0) return difference;
  }
  return left.order - right.order || (left.id < right.id ? -1 : left.id > right.id ? 1 : 0);
}

const DATE_LENGTH = 10;
const SECONDS_LENGTH = 19;

/** RFC 3339 times of one offset and fraction are in order as texts (RFC 3339 section 5.1). */
const isWrittenAlike = (left: string, right: string): boolean =>
  left[DATE_LENGTH] === right[DATE_LENGTH] &&
  left.slice(SECONDS_LENGTH) === right.slice(SECONDS_LENGTH);
