// A page's form: read with the schema of the interface, and shown again with what was typed where
// something needs another look.
import { z } from "zod";
import { type FieldError, Problem } from "../errors.ts";

/** What a form posts: one text a name, or several where a name stands more than once. */
export type FormBody = Readonly<Record<string, string | string[] | undefined>>;

/** By field what is wrong; under "" what concerns no field alone. */
export type FieldProblems = Readonly<Record<string, string>>;

export type FormRead<Value> = { ok: true; value: Value } | { ok: false; problems: FieldProblems };

/** Empty texts count as not given, since a form always posts every field. */
export function readForm<Schema extends z.ZodType>(
  schema: Schema,
  body: Readonly<Record<string, unknown>>,
): FormRead<z.output<Schema>> {
  const given = Object.fromEntries(
    Object.entries(body).filter(([, value]) => value !== undefined && value !== ""),
  );
  const parsed = schema.safeParse(given);
  if (parsed.success) return { ok: true, value: parsed.data };
  const problems: Record<string, string> = {};
  for (const { path, message } of parsed.error.issues) {
    problems[String(path[0] ?? "")] ??= message;
  }
  return { ok: false, problems };
}

/** The value by its schema; where it is none, a refusal that points at the fields. */
export function requireForm<Schema extends z.ZodType>(
  schema: Schema,
  body: unknown,
): z.output<Schema> {
  const parsed = schema.safeParse(body);
  if (parsed.success) return parsed.data;
  const errors = parsed.error.issues.map(
    ({ path, message }): FieldError => ({
      pointer: ["/body", ...path.map(String)].join("/"),
      detail: message,
    }),
  );
  const places = errors.map(({ pointer, detail }) => `${pointer}: ${detail}`).slice(0, 3);
  throw new Problem("invalid-input", places.join("; "), { errors });
}

/** So much of a text as fits, never half a sign. */
export const cutTo = (text: string, most: number): string =>
  text.slice(0, most).replace(/[\ud800-\udbff]$/, "");

/**
 * The refusal of a feature as problems of the form's fields; anything that is no refusal is thrown
 * on.
 */
export function refusedFields(error: unknown): FieldProblems {
  if (!(error instanceof Problem) || error.status >= 500) throw error;
  if (error.code === "not-found") throw error;
  const errors = (error.extras.errors ?? []) as readonly FieldError[];
  const problems: Record<string, string> = {};
  for (const { pointer, detail } of errors) {
    problems[/^\/(?:body|query)\/([^/]+)/.exec(pointer)?.[1] ?? ""] ??= detail;
  }
  return errors.length > 0 ? problems : { "": error.message };
}

/** Texts of a field that may stand several times, such as boxes that are ticked. */
export const listOf = (value: string | string[] | undefined): string[] =>
  value === undefined || value === "" ? [] : Array.isArray(value) ? value : [value];

/** The body of a form in which no name stands twice. */
export const SINGLE_FIELDS = z.record(z.string(), z.string().max(5000));

export interface Choice {
  value: string;
  text: string;
}

/** A choice that must be made is not made by whatever happens to stand first. */
export const withBlank = (choices: readonly Choice[], chosen: FormBody[string]): Choice[] =>
  chosen ? [...choices] : [{ value: "", text: "–" }, ...choices];
