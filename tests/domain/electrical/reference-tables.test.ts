import { readdirSync } from "node:fs";
import { describe, expect, it } from "vitest";

const FOLDER = new URL("../../../src/domain/electrical/tables/", import.meta.url);

interface CitationLike {
  clause: string;
  edition: string;
  found: string;
  caveat?: string;
}

function isCitation(value: unknown): value is CitationLike {
  return typeof value === "object" && value !== null && "clause" in value && "found" in value;
}

/** Every citation exported by a table file, those in its rows included. */
async function citations(): Promise<[string, CitationLike][]> {
  const found: [string, CitationLike][] = [];
  for (const file of readdirSync(FOLDER)) {
    const exported = (await import(new URL(file, FOLDER).href)) as Record<string, unknown>;
    for (const value of Object.values(exported)) collect(file, value, found);
  }
  return found;
}

function collect(file: string, value: unknown, into: [string, CitationLike][]): void {
  if (isCitation(value)) into.push([`${file}: ${value.clause}`, value]);
  if (typeof value !== "object" || value === null) return;
  for (const inner of Object.values(value)) collect(file, inner, into);
}

const CITATIONS = await citations();

describe("tables and rules kept as data", () => {
  it("number at least thirty", () => {
    expect(CITATIONS.length).toBeGreaterThanOrEqual(30);
  });

  it.each(CITATIONS)("%s has a clause, an edition and where its values come from", (_name, one) => {
    expect(one.clause.length).toBeGreaterThan(5);
    expect(one.edition.length).toBeGreaterThan(5);
    expect(["memory", "seen in a secondary page", "computed"]).toContain(one.found);
    if (one.caveat !== undefined) expect(one.caveat).toMatch(/\.$/);
  });

  it("have unique ids", () => {
    const ids = CITATIONS.map(([, one]) => ("id" in one ? String(one.id) : undefined)).filter(
      (id) => id !== undefined,
    );
    expect(new Set(ids).size).toBe(ids.length);
  });
});
