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
  if (last && hasArrived && isGood(job, last)) return true;
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

function isGood(job: DraftJob, answer: Placed): boolean {
  const { draft } = answer;
  const item = job.items[draft.item] as DraftItem;
  if (!draft.good && item.kind !== "photo") return false;
  const needsTool = item.kind === "tighten" || (item.kind === "measure" && item.needsMeter);
  if (needsTool && draft.instrument !== "fit") return false;
  if ((item.kind === "photo" || item.needsPhoto) && !draft.hasPhoto) return false;
  if (item.sequence === "mark") return true;
  return item.after.every((other) => wasMet(job, other, item, answer));
}

/**
 * Whether an item that must come first had been met, for the same subject where it is asked alike.
 */
function wasMet(job: DraftJob, other: number, item: DraftItem, before: Placed): boolean {
  const needed = job.items[other] as DraftItem;
  const keys = keysOf(job, needed);
  if (keys.length === 0) return !applies(job, needed, before);
  const isAlike = needed.repeat === item.repeat && needed.repeat !== "once";
  return keys.every((_key, subject) => {
    if (isAlike && subject !== before.draft.subject) return true;
    const last = lastOf(answersTo(job, other, subject).filter((one) => isBefore(one, before)));
    if (last && isGood(job, last)) return true;
    return isConceded(job, other, subject, last) || !applies(job, needed, before);
  });
}
