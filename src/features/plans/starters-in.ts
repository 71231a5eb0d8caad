// The starter plans in the language of who copies one. A plan is one text for all who work by it,
// so the copy is in one language and stays in it; ids, codes and expressions are the same in each.
import type { ShownLanguage } from "../../language/languages.ts";
import { STARTER_PLANS, type StarterPlan } from "./starter-plans.ts";
import spanish from "./starter-texts/spanish.json" with { type: "json" };

/** What is read by people; everything else in a document is read by the program. */
const READ_BY_PEOPLE: ReadonlySet<string> = new Set([
  ...["title", "description", "do", "why", "cautions", "toClear", "note", "source"],
  ...["options", "oneOf", "words"],
]);

const EXPRESSIONS: ReadonlySet<string> = new Set(["cel", "expression", "appliesWhen"]);

const SPANISH: ReadonlyMap<string, string> = new Map(Object.entries(spanish));
let spanishPlans: readonly StarterPlan[] | undefined;

/** All of them, in the order of a job's life. */
export const startersIn = (language: ShownLanguage): readonly StarterPlan[] =>
  language === "es" ? inSpanishOnce() : STARTER_PLANS;

export const findStarterIn = (language: ShownLanguage, name: string): StarterPlan | undefined =>
  startersIn(language).find((starter) => starter.name === name);

function inSpanishOnce(): readonly StarterPlan[] {
  spanishPlans ??= STARTER_PLANS.map((plan) => ({
    ...plan,
    description: inSpanish(plan.description),
    document: translated(plan.document),
  }));
  return spanishPlans;
}

function translated<Part>(part: Part, key = ""): Part {
  if (Array.isArray(part)) return part.map((one) => translated(one, key)) as Part;
  if (typeof part === "string") return inExpression(part, key) as Part;
  if (typeof part !== "object" || part === null) return part;
  const isKit = "category" in part;
  const members = Object.entries(part).map(([name, value]) => {
    const isRead = READ_BY_PEOPLE.has(name) || (isKit && name === "name");
    return [name, isRead ? inSpanish(value) : translated(value, name)];
  });
  return Object.fromEntries(members) as Part;
}

/** A text or a list of them; a number among options is the same in every language. */
function inSpanish<Said>(said: Said): Said {
  if (Array.isArray(said)) return said.map(inSpanish) as Said;
  return (typeof said === "string" ? (SPANISH.get(said) ?? said) : said) as Said;
}

/** An expression asks for an option as it is called. */
const inExpression = (text: string, key: string): string =>
  EXPRESSIONS.has(key)
    ? text.replaceAll(/"([^"]+)"/g, (_all, option: string) => `"${inSpanish(option)}"`)
    : text;
