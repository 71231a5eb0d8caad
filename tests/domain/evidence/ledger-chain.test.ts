import { createHash } from "node:crypto";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { canonicalize } from "../../../src/domain/evidence/canonical-json.ts";
import { type StoredEntry, verifyChain } from "../../../src/domain/evidence/ledger-chain.ts";
import { FIRST_PREVIOUS, ledgerEntryText } from "../../../src/domain/evidence/ledger-entry.ts";

const JOB = "0198c5a2-7b1e-7c3d-8a4f-5b6c7d8e9f00";

// node:crypto, not the code under test, so that a wrong hash cannot agree with itself.
function sha256(text: string): string {
  return createHash("sha256").update(text, "utf8").digest("hex");
}

function chain(bodies: readonly Record<string, unknown>[]): StoredEntry[] {
  const entries: StoredEntry[] = [];
  for (const [index, body] of bodies.entries()) {
    const seq = index + 1;
    const previous = entries[index - 1]?.sha256 ?? FIRST_PREVIOUS;
    const at = `2026-03-14T09:26:5${index % 10}.000Z`;
    const text = ledgerEntryText({ at, body, job: JOB, kind: "reading", previous, seq });
    entries.push({ seq, text, sha256: sha256(text) });
  }
  return entries;
}

const FIVE = chain([{ v: 1 }, { v: 2 }, { v: "ö" }, { v: [4] }, { v: { w: 5 } }]);
const HEAD = FIVE[4]!.sha256;

/** The entry with its members replaced, sealed again with its own right hash. */
function resealed(entry: StoredEntry, change: Record<string, unknown>): StoredEntry {
  const text = canonicalize({ ...JSON.parse(entry.text), ...change });
  return { ...entry, text, sha256: sha256(text) };
}

const stored = fc
  .array(fc.record({ note: fc.string({ unit: "binary" }), value: fc.integer() }), {
    minLength: 2,
    maxLength: 6,
  })
  .map(chain);

test("an untouched chain passes and gives its head and length", () => {
  expect(verifyChain(FIVE)).toEqual({ ok: true, head: HEAD, length: 5 });
  expect(verifyChain(FIVE, HEAD)).toEqual({ ok: true, head: HEAD, length: 5 });
  expect(verifyChain([])).toEqual({ ok: true, head: "0".repeat(64), length: 0 });
});

describe("any tampering is caught", () => {
  test("one flipped bit of any entry's text or hash", () => {
    fc.assert(
      fc.property(
        stored,
        fc.nat(),
        fc.nat(),
        fc.nat(7),
        fc.boolean(),
        (entries, e, b, bit, inText) => {
          const index = e % entries.length;
          const entry = entries[index]!;
          const field = inText ? "text" : "sha256";
          const bytes = Buffer.from(entry[field], "utf8");
          bytes[b % bytes.length]! ^= 1 << bit;
          const tampered = entries.with(index, { ...entry, [field]: bytes.toString("utf8") });
          expect(verifyChain(tampered)).toMatchObject({ ok: false, at: index + 1 });
        },
      ),
      { numRuns: 1_000 },
    );
  });

  test("any two entries swapped, with their numbers or between their numbers", () => {
    fc.assert(
      fc.property(stored, fc.nat(), fc.nat(), fc.boolean(), (entries, i, j, renumber) => {
        const [a, b] = [i % entries.length, j % entries.length];
        fc.pre(a !== b);
        const swapped = entries.with(a, entries[b]!).with(b, entries[a]!);
        const shown = renumber ? swapped.map((entry, at) => ({ ...entry, seq: at + 1 })) : swapped;
        expect(verifyChain(shown)).toMatchObject({ ok: false, at: Math.min(a, b) + 1 });
      }),
    );
  });

  test("any entry dropped or repeated but the last, renumbered or not", () => {
    fc.assert(
      fc.property(stored, fc.nat(), fc.boolean(), fc.boolean(), (entries, i, repeat, renumber) => {
        const at = i % (entries.length - 1);
        const changed = entries.toSpliced(at, repeat ? 0 : 1, ...(repeat ? [entries[at]!] : []));
        const shown = renumber ? changed.map((entry, n) => ({ ...entry, seq: n + 1 })) : changed;
        expect(verifyChain(shown).ok).toBe(false);
      }),
    );
  });

  test("entries cut off at the end are caught by the expected head, and only by it", () => {
    const cut = FIVE.slice(0, 4);
    expect(verifyChain(cut).ok).toBe(true);
    expect(verifyChain(cut, HEAD)).toMatchObject({ ok: false, at: 4 });
    expect(verifyChain([], HEAD)).toMatchObject({ ok: false, at: 0 });
  });

  test("a chain rewritten, hashes and all, is caught by the expected head, and only by it", () => {
    const rewritten = chain([{ v: 1 }, { v: 2 }, { v: "o" }, { v: [4] }, { v: { w: 5 } }]);
    expect(verifyChain(rewritten).ok).toBe(true);
    expect(verifyChain(rewritten, HEAD)).toMatchObject({ ok: false, at: 5 });
  });

  test("an entry whose stored number alone is wrong is caught", () => {
    const misnumbered = FIVE.with(4, { ...FIVE[4]!, seq: 7 });
    expect(verifyChain(misnumbered, HEAD)).toMatchObject({ ok: false, at: 5 });
  });

  test("the last entry repeated is caught", () => {
    expect(verifyChain([...FIVE, FIVE[4]!])).toMatchObject({ ok: false, at: 6 });
    expect(verifyChain([...FIVE, { ...FIVE[4]!, seq: 6 }])).toMatchObject({ ok: false, at: 6 });
  });
});

describe("an entry that is sealed rightly but is no entry is refused", () => {
  const third = FIVE[2]!;
  test.each<[string, Record<string, unknown>, string]>([
    ["a seq other than its place", { seq: 4 }, "says it is entry 4"],
    ["a seq that is no whole number", { seq: 3.5 }, '"seq"'],
    ["a seq written as text", { seq: "3" }, '"seq"'],
    ["another job", { job: JOB.replace("00", "01") }, "another job"],
    ["a job in capitals", { job: JOB.toUpperCase() }, '"job" is malformed'],
    ["the wrong previous", { previous: FIVE[0]!.sha256 }, "does not follow"],
    ["a previous that is no hash", { previous: "0" }, '"previous" is malformed'],
    ["a time without a zone", { at: "2026-03-14T09:26:53" }, '"at" is malformed'],
    ["a time in another zone", { at: "2026-03-14T09:26:53+01:00" }, '"at" is malformed'],
    ["a kind with a quote", { kind: 'a"b' }, '"kind" is malformed'],
    ["a body that is a list", { body: [] }, "an object for body"],
    ["a body that is null", { body: null }, "an object for body"],
    ["a member more", { extra: 1 }, "no object with exactly"],
  ])("%s", (_name, change, words) => {
    const verdict = verifyChain(FIVE.with(2, resealed(third, change)));
    expect(verdict).toMatchObject({ ok: false, at: 3 });
    expect(verdict.ok ? "" : verdict.problem).toContain(words);
  });

  test.each([
    ["spaces", third.text.replace('"body":', '"body": ')],
    ["members in another order", JSON.stringify({ seq: 3, ...JSON.parse(third.text) })],
    ["a member twice", third.text.replace('"seq":3', '"seq":3,"seq":3')],
    ["a needless escape", third.text.replace("ö", "\\u00f6")],
    ["no JSON", "reading 3"],
    ["a lone surrogate", third.text.replace("ö", "\ud800")],
  ])("text with %s is not canonical (RFC 8785)", (_name, text) => {
    const verdict = verifyChain(FIVE.with(2, { seq: 3, text, sha256: sha256(text) }));
    expect(verdict).toMatchObject({ ok: false, at: 3 });
    expect(verdict.ok ? "" : verdict.problem).toContain("not canonical JSON");
  });

  test("a hash in capitals is not the stored form", () => {
    const shouted = { ...third, sha256: third.sha256.toUpperCase() };
    expect(verifyChain(FIVE.with(2, shouted))).toMatchObject({ ok: false, at: 3 });
  });
});
