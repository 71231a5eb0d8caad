// Values that a JSON Schema allows, for requests made up from the OpenAPI document. What a route
// refuses beyond its schema is refused with a reason, which is what the callers look for.
import fc from "fast-check";
import type { JsonSchema } from "./api-operations.ts";

export interface Making {
  shared: Map<string, JsonSchema>;
  /** Ids to put where an id is wanted, by the name of the field. */
  idFor: (field: string) => fc.Arbitrary<string>;
}

const LENGTH_MOST = 40;
const ITEMS_MOST = 3;
const DEPTH_MOST = 6;
const PATTERNS = new Map<string, fc.Arbitrary<string>>();

export function valuesOf(
  schema: JsonSchema,
  making: Making,
  field = "",
  depth = 0,
): fc.Arbitrary<unknown> {
  if (typeof schema.$ref === "string") {
    return valuesOf(making.shared.get(schema.$ref) ?? {}, making, field, depth);
  }
  const made = madeFrom(schema, making, field, depth);
  const examples = schema.examples as unknown[] | undefined;
  if (!examples?.length || isId(schema)) return made;
  return fc.oneof(
    { arbitrary: fc.constantFrom(...examples), weight: 3 },
    { arbitrary: made, weight: 1 },
  );
}

const isId = ({ format }: JsonSchema): boolean => format === "uuid";

function madeFrom(
  schema: JsonSchema,
  making: Making,
  field: string,
  depth: number,
): fc.Arbitrary<unknown> {
  if ("const" in schema) return fc.constant(schema.const);
  if (Array.isArray(schema.enum)) return fc.constantFrom(...schema.enum);
  const choices = (schema.anyOf ?? schema.oneOf) as JsonSchema[] | undefined;
  if (choices) return fc.oneof(...choices.map((one) => valuesOf(one, making, field, depth)));
  const types = Array.isArray(schema.type) ? schema.type : [schema.type];
  return fc.oneof(...types.map((type) => ofType(String(type), schema, making, field, depth)));
}

function ofType(
  type: string,
  schema: JsonSchema,
  making: Making,
  field: string,
  depth: number,
): fc.Arbitrary<unknown> {
  if (type === "string") return textOf(schema, making, field);
  if (type === "integer" || type === "number") return numberOf(type, schema);
  if (type === "boolean") return fc.boolean();
  if (type === "null") return fc.constant(null);
  if (type === "array") {
    const items = (schema.items ?? {}) as JsonSchema;
    const least = Number(schema.minItems ?? 0);
    const most = Math.max(least, Math.min(Number(schema.maxItems ?? ITEMS_MOST), ITEMS_MOST));
    const one = valuesOf(items, making, field.replace(/s$/, ""), depth + 1);
    return fc.array(one, { minLength: least, maxLength: depth > DEPTH_MOST ? least : most });
  }
  if (type === "object") return objectOf(schema, making, depth);
  return fc.jsonValue({ maxDepth: 2 });
}

function objectOf(schema: JsonSchema, making: Making, depth: number): fc.Arbitrary<unknown> {
  const properties = Object.entries((schema.properties ?? {}) as Record<string, JsonSchema>);
  const required = new Set((schema.required ?? []) as string[]);
  if (properties.length === 0) {
    const more = schema.additionalProperties;
    if (typeof more !== "object" || more === null) return fc.constant({});
    const names = valuesOf((schema.propertyNames ?? { type: "string" }) as JsonSchema, making);
    const one = valuesOf(more as JsonSchema, making, "", depth + 1);
    return fc.dictionary(names.map(String), one, { maxKeys: ITEMS_MOST });
  }
  const wanted = properties.filter(([name]) => required.has(name) || depth <= DEPTH_MOST);
  return fc.record(
    Object.fromEntries(wanted.map(([name, one]) => [name, valuesOf(one, making, name, depth + 1)])),
    { requiredKeys: [...required] },
  );
}

function numberOf(type: string, schema: JsonSchema): fc.Arbitrary<number> {
  const least = Number(schema.minimum ?? schema.exclusiveMinimum ?? -1000);
  const most = Number(schema.maximum ?? schema.exclusiveMaximum ?? Math.max(least + 10, 1000));
  const step = Number(schema.multipleOf ?? 1);
  if (type === "integer" || schema.multipleOf) {
    const [from, to] = [Math.ceil(least / step), Math.floor(most / step)];
    return fc.integer({ min: Math.max(from, -1e9), max: Math.min(to, 1e9) }).map((n) => n * step);
  }
  return fc.double({ min: least, max: most, noNaN: true, noDefaultInfinity: true });
}

const DATES = { min: new Date("2020-01-01"), max: new Date("2030-12-31"), noInvalidDate: true };

function textOf(schema: JsonSchema, making: Making, field: string): fc.Arbitrary<string> {
  const { format, pattern } = schema;
  if (format === "uuid") return making.idFor(field);
  if (format === "date") return fc.date(DATES).map((date) => date.toISOString().slice(0, 10));
  if (format === "date-time") return fc.date(DATES).map((date) => date.toISOString());
  if (format === "email") return fc.constantFrom("one@alder.example", "two@birch.example");
  if (format === "uri") return fc.constant("https://hooks.example/in");
  const minLength = Number(schema.minLength ?? 0);
  const maxLength = Math.max(
    minLength,
    Math.min(Number(schema.maxLength ?? LENGTH_MOST), LENGTH_MOST),
  );
  if (typeof pattern === "string") return matching(pattern);
  return fc.string({ minLength, maxLength, unit: "grapheme" });
}

function matching(pattern: string): fc.Arbitrary<string> {
  const known = PATTERNS.get(pattern);
  if (known) return known;
  const made = fc.stringMatching(new RegExp(pattern));
  PATTERNS.set(pattern, made);
  return made;
}
