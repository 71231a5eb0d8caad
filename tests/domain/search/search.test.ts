import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { foldText } from "../../../src/domain/search/fold.ts";
import { exchanged, oneSlipAway } from "../../../src/domain/search/slips.ts";
import { readSought } from "../../../src/domain/search/sought.ts";
import { similarity, trigramsOf } from "../../../src/domain/search/trigrams.ts";

const LATIN = [..."aábcçdeéèfghiïjklmnñoöôpqrsštuüvwxyzžAÉÑÖZ "];

describe("folding", () => {
  test.each([
    ["O’Brïen, 14 Kiln-Lane", "obrien 14 kiln lane"],
    ["Ångström & Søn", "angstrom son"],
    ["Straße", "strasse"],
    ["ŁÓDŹ", "lodz"],
    ["Æther œuvre", "aether oeuvre"],
    ["NW0 4ZZ", "nw0 4zz"],
    ["ﬁn ②", "fin 2"],
    ["Κηφισιά", "κηφισια"],
    [" .,;- ", ""],
  ])("of %j gives %j", (text, folded) => {
    expect(foldText(text)).toBe(folded);
  });

  test("of Latin words agrees with Unicode's comparison of base letters (UTS 10)", () => {
    const sameBase = new Intl.Collator("und", { sensitivity: "base", ignorePunctuation: true });
    const word = fc
      .array(fc.constantFrom(...LATIN), { maxLength: 12 })
      .map((signs) => signs.join(""));
    fc.assert(
      fc.property(word, word, (one, other) => {
        const [left, right] = [one, other].map((text) => text.replaceAll(" ", ""));
        expect(foldText(`${left}`) === foldText(`${right}`)).toBe(
          sameBase.compare(`${left}`, `${right}`) === 0,
        );
      }),
      {
        numRuns: 500,
        examples: [
          ["Söné", "sone"],
          ["cçž", "CCZ"],
        ],
      },
    );
  });
});

describe("trigrams", () => {
  test('of "cat" and "foo|bar" are those of the manual (PostgreSQL documentation, F.35.1)', () => {
    expect([...trigramsOf("cat")].sort()).toEqual(["  c", " ca", "at ", "cat"]);
    expect([...trigramsOf("foo|bar")].sort()).toEqual(
      ["  b", "  f", " ba", " fo", "ar ", "bar", "foo", "oo "].sort(),
    );
  });

  test('make "word" and "two words" alike by 0.363636 (PostgreSQL documentation, F.35.2)', () => {
    expect(similarity("word", "two words")).toBeCloseTo(0.363636, 6);
  });

  test("make two empty texts not alike, and a text wholly like itself", () => {
    expect([similarity("", ""), similarity("Larch Row", "row LARCH")]).toEqual([0, 1]);
  });
});

/**
 * Edits of one text into another, an exchange of neighbours being one (Damerau 1964, by the
 * recurrence for restricted edits).
 */
function editsBetween(left: string, right: string): number {
  const rows = Array.from({ length: left.length + 1 }, (_, i) =>
    Array.from({ length: right.length + 1 }, (_, j) => (i === 0 ? j : j === 0 ? i : 0)),
  );
  const at = (i: number, j: number): number => rows[i]?.[j] ?? Number.POSITIVE_INFINITY;
  for (let i = 1; i <= left.length; i += 1) {
    for (let j = 1; j <= right.length; j += 1) {
      const other = left[i - 1] === right[j - 1] ? 0 : 1;
      const swapped =
        left[i - 1] === right[j - 2] && left[i - 2] === right[j - 1] ? at(i - 2, j - 2) + 1 : 99;
      const row = rows[i];
      if (row)
        row[j] = Math.min(at(i - 1, j) + 1, at(i, j - 1) + 1, at(i - 1, j - 1) + other, swapped);
    }
  }
  return at(left.length, right.length);
}

describe("slips", () => {
  const code = fc.array(fc.constantFrom(..."ABC019-"), { minLength: 5, maxLength: 9 });

  test("are exactly the codes at one edit by the distance of Damerau (1964)", () => {
    fc.assert(
      fc.property(code, code, (signs, others) => {
        const [one, other] = [signs.join(""), others.join("")];
        const slips = oneSlipAway(one);
        expect(new Set(slips).size).toBe(slips.length);
        expect(slips.every((slip) => editsBetween(one, slip) === 1)).toBe(true);
        expect(slips.includes(other)).toBe(editsBetween(one, other) === 1);
      }),
      {
        numRuns: 60,
        examples: [
          [[..."AB019"], [..."BA019"]],
          [[..."AB019"], [..."AB01"]],
        ],
      },
    );
  });

  test.each([
    ["AB01", 0],
    ["AB012", 1],
    ["A".repeat(24), 1],
    ["A".repeat(25), 0],
  ])("of %s are looked for: %i", (text, found) => {
    expect(Math.min(oneSlipAway(text).length, 1)).toBe(found);
  });

  test("of two neighbouring letters are made in each place once", () => {
    expect(exchanged("kiln")).toEqual(["ikln", "klin", "kinl"]);
    expect(exchanged("aab")).toEqual(["aba"]);
  });
});

describe("what was typed", () => {
  test.each([
    ["J-2026-0142", ["J-2026-0142"]],
    ["j 2026 142", ["J-2026-0142"]],
    ["s-2025-12345", ["S-2025-12345"]],
    ["J 142", ["J-2026-0142", "J-2025-0142", "J-2024-0142", "J-2023-0142"]],
    ["larch row", []],
    ["J-1999-0142", []],
  ])("%s can be the references %j", (text, references) => {
    expect(readSought(text, 2026).references).toEqual(references);
  });

  test("a number alone is that of a customer, a site or a job of the last four years", () => {
    const { references } = readSought("0142", 2026);
    expect(references).toHaveLength(12);
    expect(references).toEqual(expect.arrayContaining(["C-2026-0142", "S-2023-0142"]));
  });

  test.each([
    ["+44 (20) 7946-0018", ["442079460018"]],
    ["020 7946 0018", ["2079460018"]],
    ["12345", ["12345"]],
    ["14 Larch Row", ["14", "larch", "row"]],
  ])("%s is sought by the words %j", (text, words) => {
    expect(readSought(text, 2026).words).toEqual(words);
  });

  test("the three longest words are needed, those of two letters never", () => {
    expect(readSought("at 14 Larch Row Northwick House", 2026).needed).toEqual([
      "northwick",
      "larch",
      "house",
    ]);
    expect(readSought("14 ab", 2026).needed).toEqual([]);
  });

  test.each([
    [" fsa 2026 0142 ", "FSA20260142"],
    ["Straße", ""],
    ["A".repeat(64), "A".repeat(64)],
    ["A".repeat(65), ""],
  ])("%j is the code %j", (text, code) => {
    expect(readSought(text, 2026).code).toBe(code);
  });
});
