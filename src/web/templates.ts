// The one place where Handlebars is set up for pages: templates and parts read once, everything
// escaped, every word from the catalogue.
import { readdirSync, readFileSync } from "node:fs";
import { basename } from "node:path";
import Handlebars from "handlebars";
import type { MessageKey } from "../language/catalogue.ts";
import type { ShownLanguage } from "../language/languages.ts";
import { type MessageValues, say } from "../language/say.ts";
import { retellDrawing } from "../language/sentences/drawing.ts";
import { retell } from "../language/sentences/retell.ts";
import { asKept } from "./as-kept.ts";
import { inTextarea } from "./line-ends.ts";

export const TEMPLATES = new URL("../../templates/", import.meta.url);

type Template = Handlebars.TemplateDelegate;

const engine = Handlebars.create();
engine.registerHelper("t", (key: MessageKey, options: Handlebars.HelperOptions) =>
  say(options.data.root.language, key, options.hash as MessageValues),
);
// What was made in English where something was judged or refused, in the reader's language.
engine.registerHelper("retell", (sentence: unknown, options: Handlebars.HelperOptions) =>
  typeof sentence === "string" ? retell(options.data.root.language, sentence) : sentence,
);
// What somebody wrote, unless it was erased.
engine.registerHelper("kept", (text: string | null, options: Handlebars.HelperOptions) =>
  asKept(options.data.root.language, text),
);
// What stands in a textarea: a line end at the beginning of it would be taken off.
engine.registerHelper("lines", (text: unknown) =>
  typeof text === "string" ? inTextarea(text) : text,
);
engine.registerHelper("retellDrawing", (drawing: string, options: Handlebars.HelperOptions) =>
  retellDrawing(options.data.root.language, drawing),
);
engine.registerHelper("equal", (left: unknown, right: unknown) => left === right);
engine.registerHelper("either", (...values: unknown[]) => values.slice(0, -1).some(Boolean));
engine.registerHelper("holdsRole", (roles: string, ...wanted: unknown[]) =>
  roles.split(", ").some((role) => wanted.includes(role)),
);

const pages = load("pages");
const parts = load("parts");
for (const [name, template] of parts) engine.registerPartial(name, template);

// {{field name="…" label=(t "…") …}} writes parts/form-field.hbs from what it is given: a part
// would see the page's own values too, and a page's `rows` made a select a textarea.
engine.registerHelper("field", ({ hash, data }: Handlebars.HelperOptions) => {
  const html = parts.get("form-field")?.(hash, { data: { ...data } });
  return new Handlebars.SafeString(html ?? "");
});

function load(folder: string): Map<string, Template> {
  const at = new URL(`${folder}/`, TEMPLATES);
  const files = readdirSync(at).filter((file) => file.endsWith(".hbs"));
  return new Map(
    files.map((file) => [
      basename(file, ".hbs"),
      // Indenting what a part writes would indent what stands in a textarea.
      engine.compile(readFileSync(new URL(file, at), "utf8"), { preventIndent: true }),
    ]),
  );
}

/** The HTML of templates/pages/<name>.hbs in the language. */
export function renderPage(
  name: string,
  language: ShownLanguage,
  data: Readonly<Record<string, unknown>>,
): string {
  const template = pages.get(name);
  if (!template) throw new Error(`there is no page template ${name}`);
  return template({ ...data, language });
}
