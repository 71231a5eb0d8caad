import { readdirSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { PROBLEMS } from "../../src/errors.ts";
import { SENTENCES } from "../../src/language/sentences/tables/sentences.ts";
import { WORDS } from "../../src/language/sentences/tables/words.ts";
import { calledWith, sentencesOf } from "../support/sentence-sources.ts";
import { child, nameOf, type SyntaxNode } from "../tidy/syntax.ts";

const AREAS = [
  "src/domain/acceptance",
  "src/domain/bank",
  "src/domain/closeout",
  "src/domain/identifiers",
  "src/domain/plan",
  "src/domain/quantities",
  "src/domain/siting",
];

/** Sentence-like, and never shown as one: places in standards, styles, names of fields. */
const NOT_SHOWN = [
  /^(?:ISO \d|[IV]+ [A-G]$)/,
  /^\{\} \(UTC\{\}\)$/,
  /^(?:[RT]?\d[\d.]+[(;,]|ch\. |4\.2|15\.7|110\.|[A-Z]+ \d[\d.]*$|\d+ and \d+$)/,
  /^(?:var\(|system-ui|\{\}-title|, \{\} kWh$|\{\} mm$|A\. Sample$)/,
  /^(?:holdPoint|safetyCritical|cautions) (?:stricter|looser)$/,
  /\(list<double>\): double$/,
];

/** Made of parts, of which each form stands in the tables by itself. */
const IN_PARTS = [
  "at least {} s{} after {}",
  '"{}" now comes {} in "{}"{}.',
  "{} is {} {} {}; {} is needed: {}.",
];

/** What firms fill in by example, and what is described to programs. */
const EXAMPLES = [
  "UTF-8 with a header row;",
  "Prove the tester, prove dead, prove the tester again.",
  "Licensed persons only; local codes",
  "Our own rules; they come on top",
];

const isTold = (form: string): boolean =>
  ALL_FORMS.includes(form.trim()) ||
  IN_PARTS.includes(form) ||
  NOT_SHOWN.some((one) => one.test(form)) ||
  EXAMPLES.some((beginning) => form.startsWith(beginning));

const formOf = (template: string): string => template.replace(/\{[a-zA-Z]+(?::[a-z]+)?\}/g, "{}");
const FORMS = Object.keys(SENTENCES).map(formOf);
const ALL_FORMS = [...FORMS, ...Object.keys(WORDS)].join("\n");

const files = (folder: string): string[] =>
  readdirSync(folder, { recursive: true, encoding: "utf8" })
    .filter((file) => file.endsWith(".ts"))
    .map((file) => join(folder, file));

test.each(AREAS)("every sentence that %s makes has its Spanish", (area) => {
  const made = files(area).flatMap((file) =>
    sentencesOf(file, (_node, around) => !isDescription(around)),
  );
  const missing = made.filter(({ form }) => !isTold(form));
  expect(made.length).toBeGreaterThan(0);
  expect(missing.map(({ where }) => where)).toEqual([]);
});

/** What a feature says when it refuses, and what a schema says of a field. */
const REFUSING = /^(?:Problem|invalid|refine|regex|error|conflict|refuse|tooLarge|addIssue)$/;
/** Read by those who use the interface or mend the code, in English like the interface itself. */
const DESCRIBING = /^(?:describe|meta|header|log|warn|info|error|Error)$/;
const DESCRIPTIONS = ["summary", "description"];

const isDescription = (around: readonly SyntaxNode[]): boolean =>
  DESCRIBING.test(calledWith(around)) ||
  around.some(
    (node) => node.type === "Property" && DESCRIPTIONS.includes(nameOf(child(node, "key")) ?? ""),
  );

test.each(["src/features", "src/web"])("what %s refuses is told in Spanish", (area) => {
  const made = files(area).flatMap((file) =>
    sentencesOf(file, (_node, around) => !isDescription(around)).filter(
      ({ form, called }) => REFUSING.test(called) || /^[^\n]*[^ .]\.$/.test(form),
    ),
  );
  const missing = made.filter(({ form }) => !isTold(form));
  expect(made.length).toBeGreaterThan(30);
  expect(missing.map(({ where }) => where)).toEqual([]);
});

test.each(Object.entries(PROBLEMS))(
  "the problem %s has a Spanish title and way out",
  (_code, one) => {
    for (const text of [one.title, one.wayOut]) expect(SENTENCES[text]).toMatch(/\p{L}/u);
  },
);
