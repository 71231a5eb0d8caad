import { readdirSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { SENTENCES } from "../../src/language/sentences/tables/sentences.ts";
import { WORDS } from "../../src/language/sentences/tables/words.ts";
import { sentencesOf } from "../support/sentence-sources.ts";

const AREAS = [
  "src/domain/acceptance",
  "src/domain/closeout",
  "src/domain/identifiers",
  "src/domain/quantities",
];

/** Sentence-like, and never shown as one. */
const NOT_SHOWN = [/^(?:ISO \d|[IV]+ [A-G]$)/, /^\{\} \(UTC\{\}\)$/];

const formOf = (template: string): string => template.replace(/\{[a-zA-Z]+(?::\w+)?\}/g, "{}");
const FORMS = Object.keys(SENTENCES).map(formOf);
const ALL_FORMS = [...FORMS, ...Object.keys(WORDS)].join("\n");

const files = (folder: string): string[] =>
  readdirSync(folder, { recursive: true, encoding: "utf8" })
    .filter((file) => file.endsWith(".ts"))
    .map((file) => join(folder, file));

test.each(AREAS)("every sentence that %s makes has its Spanish", (area) => {
  const made = files(area).flatMap((file) => sentencesOf(file));
  const missing = made.filter(
    ({ form }) => !ALL_FORMS.includes(form) && !NOT_SHOWN.some((one) => one.test(form)),
  );
  expect(made.length).toBeGreaterThan(0);
  expect(missing.map(({ where }) => where)).toEqual([]);
});
