import referenceCanonicalize from "canonicalize";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { CANONICAL_DEPTH_MAX } from "../../../src/domain/evidence/canonical-json.ts";
import {
  FIRST_PREVIOUS,
  KIND_LENGTH_MAX,
  type LedgerFields,
  ledgerBodyText,
  ledgerEntryText,
} from "../../../src/domain/evidence/ledger-entry.ts";

const FIELDS: LedgerFields = {
  at: "2026-03-14T09:26:53.589Z",
  body: { volts: 51.2, unit: "B-07" },
  job: "0198c5a2-7b1e-7c3d-8a4f-5b6c7d8e9f00",
  kind: "reading",
  previous: FIRST_PREVIOUS,
  seq: 1,
};

test("the text is the documented pieces put together, and canonical as RFC 8785 asks", () => {
  const text = ledgerEntryText(FIELDS);
  expect(text).toBe(
    '{"at":"2026-03-14T09:26:53.589Z","body":{"unit":"B-07","volts":51.2},' +
      '"job":"0198c5a2-7b1e-7c3d-8a4f-5b6c7d8e9f00","kind":"reading",' +
      `"previous":"${"0".repeat(64)}","seq":1}`,
  );
  expect(text).toBe(referenceCanonicalize(FIELDS));
});

test("with any body, the pieces make the text that the canonicalize package makes", () => {
  const body = fc.dictionary(fc.string({ unit: "binary" }), fc.jsonValue({ stringUnit: "binary" }));
  fc.assert(
    fc.property(body, fc.integer({ min: 1 }), fc.uuid(), (value, seq, job) => {
      const fields = { ...FIELDS, body: value, seq, job };
      expect(ledgerEntryText(fields)).toBe(referenceCanonicalize(fields));
    }),
    { numRuns: 1_000 },
  );
});

describe("fields of another shape are a bug and throw", () => {
  test.each<[Partial<Record<keyof LedgerFields, unknown>>, string]>([
    [{ at: "2026-03-14 09:26:53Z" }, '"at"'],
    [{ at: "2026-13-14T09:26:53Z" }, '"at"'],
    [{ at: "2026-03-14T24:00:00Z" }, '"at"'],
    [{ at: "2026-03-14T09:26:53.1234567890Z" }, '"at"'],
    [{ job: "J-2026-0142" }, '"job"'],
    [{ kind: "" }, '"kind"'],
    [{ kind: "Reading" }, '"kind"'],
    [{ kind: "close--out" }, '"kind"'],
    [{ kind: "photo2" }, '"kind"'],
    [{ kind: "a".repeat(KIND_LENGTH_MAX + 1) }, '"kind"'],
    [{ previous: "f".repeat(63) }, '"previous"'],
    [{ previous: "F".repeat(64) }, '"previous"'],
    [{ seq: 0 }, '"seq"'],
    [{ seq: 1.5 }, '"seq"'],
    [{ seq: 2 ** 53 }, '"seq"'],
    [{ body: [] }, "body"],
    [{ body: { a: Number.NaN } }, "NaN"],
  ])("%j", (change, words) => {
    expect(() => ledgerEntryText({ ...FIELDS, ...change } as LedgerFields)).toThrow(words);
  });

  test.each([
    { at: "2026-12-31T23:59:59Z" },
    { at: "2026-03-14T09:26:53.123456789Z" },
    { kind: "close-out.passed" },
    { kind: "a".repeat(KIND_LENGTH_MAX) },
    { previous: "f".repeat(64) },
    { seq: Number.MAX_SAFE_INTEGER },
  ])("but %j is an entry's", (change) => {
    expect(ledgerEntryText({ ...FIELDS, ...change })).toContain(String(Object.values(change)[0]));
  });
});

test("a body may be 63 levels deep, so that its entry is at most 64", () => {
  const deepest = nested(CANONICAL_DEPTH_MAX - 1);
  expect(ledgerBodyText(deepest).ok).toBe(true);
  expect(ledgerEntryText({ ...FIELDS, body: deepest })).toContain('{"a":0}');
  expect(ledgerBodyText(nested(CANONICAL_DEPTH_MAX)).ok).toBe(false);
});

test.each([null, [], "text", 1, undefined])("a body of %j is refused", (body) => {
  expect(ledgerBodyText(body)).toEqual({
    ok: false,
    problem: "A ledger entry's body is a JSON object.",
  });
});

function nested(depth: number): Record<string, unknown> {
  let value: unknown = 0;
  for (let level = 0; level < depth; level += 1) value = { a: value };
  return value as Record<string, unknown>;
}
