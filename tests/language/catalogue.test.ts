import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import Handlebars from "handlebars";
import { IntlMessageFormat } from "intl-messageformat";
import { expect, test } from "vitest";
import { CATALOGUE, type MessageKey } from "../../src/language/catalogue.ts";
import { LANGUAGES, languageAskedFor } from "../../src/language/languages.ts";
import { say } from "../../src/language/say.ts";

const KEYS = Object.keys(CATALOGUE.en) as MessageKey[];
const TEMPLATE_FOLDERS = ["templates/pages", "templates/parts"];
/** "kWh" and the like are the same in every language; so is the product's name. */
const SAME_EVERYWHERE = /^(Holdpoint|kWh|CSV|ID|mm|kg|m|A|V|·|N·m)$/;

function filesUnder(folder: string, ending: string): string[] {
  return readdirSync(folder, { recursive: true, encoding: "utf8" })
    .filter((file) => file.endsWith(ending))
    .map((file) => join(folder, file));
}

const templates = TEMPLATE_FOLDERS.flatMap((folder) => filesUnder(folder, ".hbs"));

/** Names of the values that a message takes (ICU MessageFormat). */
function valuesOf(text: string): string[] {
  const names = new Set<string>();
  const visit = (elements: readonly object[]): void => {
    for (const element of elements) {
      if ("value" in element && "type" in element && ![0, 7].includes(Number(element.type))) {
        names.add(String(element.value));
      }
      if ("options" in element) {
        const options = Object.values(element.options as Record<string, { value: object[] }>);
        for (const { value } of options) visit(value);
      }
    }
  };
  visit(new IntlMessageFormat(text, "en", undefined, { ignoreTag: true }).getAst());
  return [...names].sort();
}

test.each(LANGUAGES)(
  "every text in %s is an ICU message with the values of the English",
  (lang) => {
    const wrong = KEYS.filter(
      (key) => valuesOf(CATALOGUE[lang][key]).join() !== valuesOf(CATALOGUE.en[key]).join(),
    );
    expect(KEYS.length).toBeGreaterThan(100);
    expect(wrong).toEqual([]);
  },
);

test("texts that a template asks for are in the catalogue", () => {
  const asked = templates.flatMap((file) =>
    [...readFileSync(file, "utf8").matchAll(/[{(]t "([^"]+)"/g)].map(([, key]) => `${key}`),
  );
  expect(asked.length).toBeGreaterThan(100);
  expect(asked.filter((key) => !Object.hasOwn(CATALOGUE.en, key))).toEqual([]);
});

test("a text that nothing asks for is not kept", () => {
  const code = [...templates, ...filesUnder("src", ".ts"), ...filesUnder("templates/mail", ".hbs")]
    .filter((file) => !file.startsWith(join("src", "language")))
    .map((file) => readFileSync(file, "utf8"))
    .join("\n");
  /** `plans.weight.${weight}` asks for every text that begins so. */
  const beginnings = [...code.matchAll(/`([a-z][A-Za-z]*(?:\.[A-Za-z]+)*\.)\$\{/g)].map(
    ([, start]) => `${start}`,
  );
  const unused = KEYS.filter(
    (key) =>
      !beginnings.some((start) => key.startsWith(start)) &&
      !/^(form|list|frame)\./.test(key) &&
      !code.includes(`"${key}"`),
  );
  expect(unused).toEqual([]);
});

test.each(templates)("%s has no word of its own", (file) => {
  const words = literals(Handlebars.parse(readFileSync(file, "utf8")))
    .join("")
    .replace(/<(script|style)[\s\S]*?<\/\1>|<code[^>]*>[\s\S]*?<\/code>/g, "")
    .replace(/ (?:placeholder|title|alt|aria-label)="([^"]*)"/g, " >$1< ")
    .replace(/<[^>]*>/g, "\n")
    .replace(/&[a-z]+;/g, " ")
    .split(/\s+/)
    .filter((word) => /\p{L}/u.test(word) && !SAME_EVERYWHERE.test(word));
  expect(words).toEqual([]);
});

/** The text between the expressions of a template; an expression is a mark without letters. */
function literals(program: hbs.AST.Program): string[] {
  return program.body.flatMap((statement) => {
    if (statement.type === "ContentStatement") return (statement as hbs.AST.ContentStatement).value;
    if (!("program" in statement)) return "§";
    const block = statement as hbs.AST.BlockStatement;
    const inside = [block.program, block.inverse].filter(
      (part) => part !== undefined && part !== null,
    );
    return inside.flatMap((part) => [...literals(part)]);
  });
}

test("numbers of things take the forms of the language (CLDR plural rules: one, other)", () => {
  expect(say("es", "standing.open", { count: 1 })).toBe("1 punto de espera abierto");
  expect(say("es", "standing.open", { count: 3 })).toBe("3 puntos de espera abiertos");
});

test("the made-up language is bracketed, accented and longer, and keeps its values", () => {
  const said = say("en-XA", "standing.open", { count: 3 });
  expect(said).toMatch(/^⟦3 [^a-z ]*h[^⟦⟧]+⟧$/);
  expect(said).toMatch(/[áéíóú]/);
  expect(said.length).toBeGreaterThan(say("en", "standing.open", { count: 3 }).length * 1.2);
});

test.each([
  ["es-MX,es;q=0.9,en;q=0.8", "es"],
  ["da, en-gb;q=0.8, en;q=0.7", "en"],
  ["fr-CH, fr;q=0.9", undefined],
  ["en;q=0.2, es;q=0.7", "es"],
  ["es;q=0, en", "en"],
  ["en-XA", "en-XA"],
  [undefined, undefined],
])("Accept-Language %s (RFC 9110 12.5.4) means %s", (header, language) => {
  expect(languageAskedFor(header)).toBe(language);
});
