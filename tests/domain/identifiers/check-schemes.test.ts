import { gtin, luhn, mod11_2, mod37_2, mod37_36, mod97_10 } from "cdigit";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  CHECK_SCHEMES,
  type CheckScheme,
  checkCharacter,
  hasValidCheck,
} from "../../../src/domain/identifiers/check-schemes.ts";

const DIGITS = "0123456789";
const ALPHANUMERIC = `${DIGITS}ABCDEFGHIJKLMNOPQRSTUVWXYZ`;

describe("published examples", () => {
  test.each<readonly [CheckScheme, string, string, string]>([
    ["gs1-mod10", "629104150021", "3", "GTIN-13, GS1 Hong Kong check digit page (sum 57)"],
    ["gs1-mod10", "890400021003", "7", "GTIN-13, GS1 India check digit page (sum 63)"],
    ["gs1-mod10", "730001100001", "7", "GTIN-13, GS1 Sweden check digit page (sum 23)"],
    ["gs1-mod10", "37610425002123456", "9", "SSCC, GS1 General Specifications 7.9, memory"],
    ["gs1-mod10", "03600029145", "2", "GTIN-12, GS1 General Specifications 7.9, memory"],
    ["gs1-mod10", "9638507", "4", "GTIN-8, GS1 General Specifications 7.9, memory"],
    ["gs1-mod10", "1629104150021", "0", "GTIN-14, GS1 General Specifications 7.9, memory"],
    ["luhn", "7992739871", "3", "ISO/IEC 7812-1 Annex B (sum 67)"],
    ["luhn", "1789372997", "4", "ISO/IEC 7812-1 Annex B (sum 56)"],
    ["mod11-2", "0794", "0", "ISO/IEC 7064, memory"],
    ["mod11-2", "079", "X", "ISO/IEC 7064, memory"],
    ["mod11-2", "000000021825009", "7", "ISO 27729 person identifier sample, memory"],
    ["mod11-2", "000000021694233", "X", "ISO 27729 person identifier sample, memory"],
    ["mod37-2", "G123489654321", "Y", "ISO/IEC 7064, memory"],
    ["mod37-36", "A12425GABC1234002", "M", "ISO/IEC 7064, memory"],
    ["mod97-10", "794", "44", "ISO/IEC 7064, memory"],
    ["mod97-10", "WEST12345698765432GB", "82", "ISO 13616 sample GB82 WEST…, memory"],
    ["mod97-10", "97", "98", "ISO 13616: 98 minus the remainder, so 98 and never 01"],
    ["mod97-10", "65", "97", "ISO 13616: 98 minus the remainder, so 97 and never 00"],
    ["mod97-10", "32", "02", "ISO 13616: 98 minus the remainder, 02 being the least"],
  ])("%s of %s is %s: %s", (scheme, body, check) => {
    expect(checkCharacter(scheme, body)).toEqual({ ok: true, check });
    expect(hasValidCheck(scheme, body + check)).toBe(true);
  });

  test("none adds nothing and accepts everything", () => {
    expect(checkCharacter("none", "any thing")).toEqual({ ok: true, check: "" });
    expect(hasValidCheck("none", "")).toBe(true);
  });
});

describe("what cannot carry a check digit is refused", () => {
  test.each<readonly [CheckScheme, string, string]>([
    ["luhn", "", "nothing"],
    ["luhn", "12A", "digits only"],
    ["gs1-mod10", "1 2", "digits only"],
    ["mod11-2", "07X", "digits only"],
    ["mod37-36", "abc", "capital letters"],
    ["mod97-10", "12-3", "capital letters"],
    ["luhn", "1".repeat(65), "at most 64"],
  ])("%s of %j", (scheme, body, reason) => {
    expect(checkCharacter(scheme, body)).toEqual({
      ok: false,
      problem: expect.stringContaining(reason),
    });
  });

  test.each<readonly [CheckScheme, string]>([
    ["luhn", "0"],
    ["luhn", ""],
    ["mod97-10", "44"],
    ["mod11-2", "079x"],
    ["gs1-mod10", "6291041500214"],
  ])("%s does not accept %j", (scheme, text) => {
    expect(hasValidCheck(scheme, text)).toBe(false);
  });

  test("a body of 64 characters is still covered", () => {
    expect(checkCharacter("luhn", "1".repeat(64)).ok).toBe(true);
  });
});

function bodyOf(alphabet: string, maxLength = 60) {
  return fc
    .array(fc.constantFrom(...alphabet), { minLength: 1, maxLength })
    .map((characters) => characters.join(""));
}

describe("the cdigit library, used as an oracle, computes the same", () => {
  test.each<readonly [CheckScheme, string, { compute(body: string): string }]>([
    ["gs1-mod10", DIGITS, gtin],
    ["luhn", DIGITS, luhn],
    ["mod11-2", DIGITS, mod11_2],
    ["mod37-2", ALPHANUMERIC, mod37_2],
    ["mod37-36", ALPHANUMERIC, mod37_36],
    ["mod97-10", DIGITS, mod97_10],
  ])("%s", (scheme, alphabet, oracle) => {
    fc.assert(
      fc.property(bodyOf(alphabet), (body) => {
        const own = checkCharacter(scheme, body);
        return own.ok && own.check === oracle.compute(body);
      }),
      { numRuns: 1000 },
    );
  });

  test("MOD 97-10 takes letters as 10 to 35 (ISO 13616, ISO 17442)", () => {
    fc.assert(
      fc.property(bodyOf(ALPHANUMERIC), (body) => {
        const own = checkCharacter("mod97-10", body);
        const numbers = [...body].map((sign) => String(ALPHANUMERIC.indexOf(sign))).join("");
        return own.ok && own.check === mod97_10.compute(numbers);
      }),
      { numRuns: 500 },
    );
  });
});

describe("which errors a scheme finds", () => {
  const checked = CHECK_SCHEMES.filter((scheme) => scheme !== "none");

  test.each(checked)("%s finds every single wrong digit (ISO/IEC 7064; theory)", (scheme) => {
    fc.assert(
      fc.property(
        bodyOf(DIGITS, 30),
        fc.nat(),
        fc.integer({ min: 1, max: 9 }),
        (body, place, by) => {
          const at = place % body.length;
          const wrong = String((Number(body.charAt(at)) + by) % 10);
          const own = checkCharacter(scheme, body);
          const changed = body.slice(0, at) + wrong + body.slice(at + 1);
          return own.ok && !hasValidCheck(scheme, changed + own.check);
        },
      ),
      { numRuns: 1000 },
    );
  });

  function isSwapFound(scheme: CheckScheme, body: string, at: number): boolean {
    const own = checkCharacter(scheme, body);
    if (!own.ok) throw new Error(own.problem);
    const swapped = body.slice(0, at) + body.charAt(at + 1) + body.charAt(at) + body.slice(at + 2);
    return !hasValidCheck(scheme, swapped + own.check);
  }

  function adjacentPairs(scheme: CheckScheme, isBlind: (a: number, b: number) => boolean) {
    fc.assert(
      fc.property(
        fc.tuple(bodyOf(DIGITS, 20), fc.nat(9), fc.nat(9), bodyOf(DIGITS, 20)),
        ([before, a, b, after]) => {
          fc.pre(a !== b);
          return isSwapFound(scheme, `${before}${a}${b}${after}`, before.length) !== isBlind(a, b);
        },
      ),
      { numRuns: 2000 },
    );
  }

  test("Luhn misses the swap of 0 and 9 and no other swap of neighbours (theory)", () => {
    adjacentPairs("luhn", (a, b) => Math.abs(a - b) === 9);
  });

  test("GS1 mod 10 misses swaps of digits that differ by 5 and no other (theory)", () => {
    adjacentPairs("gs1-mod10", (a, b) => Math.abs(a - b) === 5);
  });

  test.each<CheckScheme>(["mod11-2", "mod37-2", "mod97-10"])(
    "%s, a pure system of ISO/IEC 7064, finds every swap of neighbours",
    (scheme) => {
      adjacentPairs(scheme, () => false);
    },
  );
});
