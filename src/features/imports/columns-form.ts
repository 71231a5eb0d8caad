// Which column is what, as a form: a choice for each column of the file, and a value for whatever
// no column holds but new rows need.
import type { z } from "zod";
import type { ShownLanguage } from "../../language/languages.ts";
import { isMessageKey, say } from "../../language/say.ts";
import { kindOf } from "./kinds.ts";
import type { DryRun, Import } from "./schemas.ts";
import type { ImportRow } from "./store.ts";

type Shown = z.infer<typeof Import>;

export function columnsView(row: Shown, language: ShownLanguage) {
  const { fields } = kindOf(row.kind);
  const named = new Set(row.columns);
  const choices = fields.map(({ name }) => ({ value: name, text: fieldName(name, language) }));
  return {
    headers: row.headers.map((header, at) => ({
      ...{ at, header: header || String(at + 1), field: row.columns[at] ?? "", choices },
      samples: row.samples.map((cells) => cells[at] ?? "").filter((cell) => cell !== ""),
    })),
    constants: fields
      .filter(({ name, requirement }) => requirement !== undefined && !named.has(name))
      .map(({ name }) => ({
        ...{ name: `every-${name}`, label: fieldName(name, language) },
        value: row.constants[name] ?? "",
      })),
  };
}

function fieldName(name: string, language: ShownLanguage): string {
  const key = `imports.field.${name}`;
  return isMessageKey(key) ? say(language, key) : name;
}

/** What the form asks for: columns as chosen, and what every row has. */
export function wishOf(
  typed: Readonly<Record<string, string>>,
  row: ImportRow,
): z.infer<typeof DryRun> {
  const headers = row.headers as string[];
  const constants = Object.entries(typed).flatMap(([name, value]) =>
    name.startsWith("every-") && value !== "" ? [[name.slice("every-".length), value]] : [],
  );
  return {
    columns: headers.map((_header, at) => typed[`column-${at}`] || null),
    constants: Object.fromEntries(constants),
  };
}
