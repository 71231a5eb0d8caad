// Requirement: of an item that is in both versions every field that changed is told with both
// values, its weight and whom it concerns.
import type { ChangeWeight, PlanChange } from "./diff-change.ts";
import { FIELD_ORDER, fieldRule, type ItemOfPlan } from "./diff-fields.ts";
import { fieldWords, type Titles } from "./diff-words.ts";

/** Fields that only name the item. */
const NAMES = new Set(["id", "title"]);

/** The changes to the fields of one item, in the order of the item's form. */
export function itemChanges(
  before: ItemOfPlan,
  after: ItemOfPlan,
  stageId: string,
  titles: Titles,
): PlanChange[] {
  const [old, now] = [before.item, after.item] as unknown as Record<string, unknown>[];
  const names = new Set([...FIELD_ORDER, ...Object.keys(old ?? {}), ...Object.keys(now ?? {})]);
  const isOther = before.item.kind !== after.item.kind;
  const place = { of: "item", stageId, itemId: after.item.id } as const;
  const changes: PlanChange[] = [];
  for (const field of names) {
    const [was, is] = [old?.[field], now?.[field]];
    if (NAMES.has(field) || sameValue(was, is)) continue;
    const rule = fieldRule(field);
    const weight = isOther && OF_KIND.has(field) ? "different" : rule.weigh(before, after);
    const sentence = sentenceOn(field, weight, before, after, titles);
    const values = {
      ...(was === undefined ? {} : { before: was }),
      ...(is === undefined ? {} : { after: is }),
    };
    changes.push({
      ...place,
      kind: "changed",
      field,
      ...values,
      weight,
      concerns: rule.concerns,
      sentence,
    });
  }
  return changes;
}

/** Fields that mean something else, or nothing, for an item of another kind. */
const OF_KIND = new Set([
  ...["limit", "unit", "points", "photos", "options", "positions", "what", "whose"],
  "decisionRule",
]);

/** Whether two parts of documents are the same, whatever the order of their members. */
export function sameValue(left: unknown, right: unknown): boolean {
  if (typeof left !== "object" || typeof right !== "object" || !left || !right) {
    return left === right;
  }
  if (Array.isArray(left) !== Array.isArray(right)) return false;
  const [one, two] = [left, right] as Record<string, unknown>[];
  const names = new Set([...Object.keys(left), ...Object.keys(right)]);
  return [...names].every((name) => sameValue(one?.[name], two?.[name]));
}

function sentenceOn(
  field: string,
  weight: ChangeWeight,
  before: ItemOfPlan,
  after: ItemOfPlan,
  titles: Titles,
): string {
  const title = `"${after.item.title}"`;
  if (weight !== "wording") {
    const own = OWN_SENTENCES[`${field} ${weight}`];
    if (own) return `${title} ${own}`;
  }
  const name = fieldRule(field).name;
  if (TEXTS.has(field))
    return `${title}: ${name} ${field === "cautions" ? "are" : "is"} written otherwise.`;
  const [was, is] = [before, after].map(({ item }) => short(fieldWords(item, field, titles)));
  if (was === is) return `${title}: ${name} is written otherwise.`;
  return `${title}: ${name} is ${is} instead of ${was}.`;
}

const TEXTS = new Set(["do", "why", "cautions", "toClear", "holdPoint", "safetyCritical"]);

const OWN_SENTENCES: Readonly<Record<string, string>> = {
  "holdPoint stricter": "is now a hold point: the job stays open until it is met or conceded.",
  "holdPoint looser": "is no longer a hold point: the job may be closed without it.",
  "safetyCritical stricter": "is now safety-critical: nobody can concede it.",
  "safetyCritical looser": "is no longer safety-critical: a manager may concede it.",
  "cautions stricter": "has more cautions than before.",
  "cautions looser": "has fewer cautions than before.",
};

const SENTENCE_MOST = 200;

const short = (words: string): string =>
  words.length <= SENTENCE_MOST ? words : `${words.slice(0, SENTENCE_MOST - 1)}…`;
