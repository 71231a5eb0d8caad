// Every word of the tablet's page is the catalogue's: its templates and its code have none of their
// own, and each text gets the values that it names.
import { dirname } from "node:path";
import { IntlMessageFormat } from "intl-messageformat";
import { describe, expect, test } from "vitest";
import { TABLET_ENGLISH } from "../../src/language/tablet-english.ts";
import { languageFor } from "../../src/tablet/language/spoken.ts";
import { readProjectFiles } from "../tidy/project-files.ts";
import { child, children, nameOf, type SyntaxNode, syntaxOf, walk } from "../tidy/syntax.ts";

const files = readProjectFiles(dirname(dirname(import.meta.dirname))).filter(
  ({ path }) => path.startsWith("src/tablet/") && path.endsWith(".ts"),
);
/** What nobody reads: faults of the worker and of programming, and names of the standards'. */
const UNREAD = /^src\/tablet\/(?:worker\/|sw\.ts)/;
const SAME_EVERYWHERE = /^(?:Holdpoint)$/;

/** The words in the markup of a template, and in those of its attributes that are read out. */
const wordsOf = (markup: string): string[] =>
  markup
    .replace(/ (?:placeholder|title|alt|aria-label)="([^"]*)"/g, " >$1< ")
    .replace(/<[^>]*>/g, "\n")
    .split(/\s+/)
    .filter((word) => /\p{L}/u.test(word) && !SAME_EVERYWHERE.test(word));

function markupOf(node: SyntaxNode): string {
  const quasis = children(child(node, "quasi"), "quasis");
  return quasis.map(({ value }) => (value as { cooked: string }).cooked).join("§");
}

describe("templates", () => {
  test.each(files.map((file) => [file.path, file] as const))("%s has no word", (_path, file) => {
    const found: string[] = [];
    walk(syntaxOf(file), (node) => {
      if (node.type !== "TaggedTemplateExpression") return;
      if (nameOf(child(node, "tag")) === "html") found.push(...wordsOf(markupOf(node)));
    });
    expect(found).toEqual([]);
  });

  test.each([
    ['<p class="note warn">§</p>', []],
    ['<p class="note warn">Not §</p>', ["Not"]],
    ['<nav aria-label="This tablet">§</nav>', ["This", "tablet"]],
    ['<img src=§ alt=§ /><span class="mark">Holdpoint</span>', []],
  ])("%s", (markup, words) => expect(wordsOf(markup)).toEqual(words));
});

/** Names, a cookie, a selector, what only a programmer reads, and a word for a rule's drawing. */
const NAMES = [
  ...["AbortError", "UnknownError", "VersionError", "InvalidStateError", "QuotaExceededError"],
  ...["KeepRefused", "Enter", "main h1", "Path=/tablet/; Max-Age=§; SameSite=Strict"],
  ...["The shell has no place for the page.", "the store was closed", "the plan"],
];

/** A sentence, or a word with a capital: what a person could be shown. */
const isShown = (text: string): boolean =>
  /^[A-Z][a-z]/.test(text) || /\p{L}[,.:;]? \p{L}/u.test(text);

function textsOf(node: SyntaxNode): string[] {
  if (node.type === "Literal" && typeof node.value === "string") return [node.value];
  if (node.type !== "TemplateLiteral") return [];
  const quasis = children(node, "quasis");
  return [quasis.map(({ value }) => (value as { cooked: string }).cooked).join("§")];
}

test("no text of the code is a sentence of its own", () => {
  const found: string[] = [];
  for (const file of files.filter(({ path }) => !UNREAD.test(path))) {
    walk(syntaxOf(file), (node, [parent]) => {
      if (parent?.type === "TaggedTemplateExpression") return;
      const own = textsOf(node).filter((text) => isShown(text) && !NAMES.includes(text));
      found.push(...own.map((text) => `${file.path}: ${text}`));
    });
  }
  expect(found).toEqual([]);
});

/** Names that a text takes (ICU MessageFormat). */
function namesIn(text: string): string[] {
  const names = new Set<string>();
  const visit = (elements: ReturnType<IntlMessageFormat["getAst"]>): void => {
    for (const element of elements) {
      if ("value" in element && [1, 5, 6].includes(element.type)) names.add(String(element.value));
      if ("options" in element) {
        for (const { value } of Object.values(element.options)) visit(value);
      }
    }
  };
  visit(new IntlMessageFormat(text, "en", undefined, { ignoreTag: true }).getAst());
  return [...names].sort();
}

/** Values written out beside the key; those handed over by a name are not seen here. */
function valuesOf(node: SyntaxNode | undefined): string[] | undefined {
  if (node === undefined) return [];
  const properties = children(node, "properties");
  const isWhole = properties.every(({ type }) => type === "Property");
  if (node.type !== "ObjectExpression" || !isWhole) return undefined;
  return properties.map((property) => nameOf(child(property, "key")) ?? "").sort();
}

test("each text gets the values that it names", () => {
  let compared = 0;
  for (const file of files) {
    walk(syntaxOf(file), (node) => {
      if (node.type !== "CallExpression" || nameOf(child(node, "callee")) !== "phrase") return;
      const [key, values] = children(node, "arguments");
      const text = TABLET_ENGLISH[nameOf(key) as keyof typeof TABLET_ENGLISH];
      const given = valuesOf(values);
      if (key?.type !== "Literal" || given === undefined) return;
      expect(given, `${file.path}: ${nameOf(key)}`).toEqual(namesIn(text));
      compared += 1;
    });
  }
  expect(compared).toBeGreaterThan(100);
});

test.each([
  ["es", ["en-GB"], "es"],
  ["en", ["es-ES"], "en"],
  [undefined, ["fr", "es-MX", "en"], "es"],
  [undefined, ["fr"], "en"],
  ["tlh", ["es"], "es"],
  ["es", ["en-XA"], "en-XA"],
] as const)("a person with %s and a browser with %j reads %s", (own, asked, language) => {
  expect(languageFor(own, asked)).toBe(language);
});
