import { describe, expect, test } from "vitest";
import { planJsonSchema } from "../../../src/domain/plan/schema.ts";

type Node = Record<string, unknown>;

/** Every schema inside a schema, with where it stands. */
function walk(node: unknown, place: string, visit: (node: Node, place: string) => void): void {
  if (typeof node !== "object" || node === null) return;
  if (!Array.isArray(node)) visit(node as Node, place);
  for (const [key, value] of Object.entries(node)) walk(value, `${place}/${key}`, visit);
}

const schema = planJsonSchema() as Node;

describe("the published schema of plan/1", () => {
  test("names its dialect (JSON Schema 2020-12)", () => {
    expect(schema.$schema).toBe("https://json-schema.org/draft/2020-12/schema");
  });

  test("closes every object and describes every field but a fixed word", () => {
    const open: string[] = [];
    const bare: string[] = [];
    walk(schema, "", (node, place) => {
      if (node.type !== "object" || !node.properties) return;
      if (node.additionalProperties !== false) open.push(place);
      for (const [name, field] of Object.entries(node.properties as Record<string, Node>)) {
        const told = field.description ?? field.const;
        if (told === undefined) bare.push(`${place}/${name}`);
      }
    });
    expect(open).toEqual([]);
    expect(bare).toEqual([]);
  });

  test("bounds every text and list", () => {
    const unbounded: string[] = [];
    walk(schema, "", (node, place) => {
      const isFreeText = node.type === "string" && !node.enum && node.const === undefined;
      if (isFreeText && node.maxLength === undefined && node.pattern === undefined)
        unbounded.push(place);
      if (node.type === "array" && node.maxItems === undefined) unbounded.push(place);
    });
    expect(unbounded).toEqual([]);
  });

  test("has the nine kinds of items", () => {
    const kinds = new Set<unknown>();
    walk(schema, "", (node) => {
      const kind = (node.properties as Record<string, Node> | undefined)?.kind;
      if (kind?.const) kinds.add(kind.const);
    });
    expect([...kinds].sort()).toEqual([
      "choose",
      "confirm",
      "count",
      "identify",
      "measure",
      "photo",
      "set",
      "sign",
      "tighten",
    ]);
  });
});
