import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { CHECK_SCHEMES, checkCharacter } from "../../../src/domain/identifiers/check-schemes.ts";
import { checkSerial, normaliseSerial } from "../../../src/domain/identifiers/check-serial.ts";

// 7992739871 + 3: ISO/IEC 7812-1 Annex B. A12425GABC1234002 + M: ISO/IEC 7064 MOD 37,36, memory.
const LUHN_RULE = { mask: "HB-#{11}", check: "luhn" } as const;
const LUHN_SERIAL = "HB-79927398713";
const HYBRID_RULE = { mask: "*{18}", check: "mod37-36" } as const;
const HYBRID_SERIAL = "A12425GABC1234002M";

describe("serials as typed", () => {
  test.each([
    LUHN_SERIAL,
    ` ${LUHN_SERIAL}\r\n`,
    "hb-79927398713",
    "HB-799 273 987 13",
    `\ufeffHB-7992\u200b7398713`,
    "HB\u00a0-79927398713",
  ])("%j is kept as HB-79927398713", (typed) => {
    expect(checkSerial(LUHN_RULE, typed)).toEqual({ ok: true, serial: LUHN_SERIAL });
  });

  test("only a to z become capitals: ß, dotless ı and long ſ are not silently changed", () => {
    expect(normaliseSerial("aß\u0131\u017f")).toBe("Aß\u0131\u017f");
  });

  test.each([
    ["", "empty"],
    [" \t\r\n", "empty"],
    ["HB-7992739871", "length"],
    ["HB-799273987133", "length"],
    ["H".repeat(64), "length"],
    ["H".repeat(65), "too-long"],
    [" ".repeat(501), "too-long"],
    ["HB-7992739871E", "character"],
    ["HC-79927398713", "character"],
    ["HB-79927398710", "check-digit"],
  ])("%j is refused as %s, in one sentence", (typed, code) => {
    const checked = checkSerial(LUHN_RULE, typed);
    expect(checked).toMatchObject({ ok: false, code });
    expect(checked.ok || checked.problem).toMatch(/^[A-Z].*\.$/);
  });

  test("the place of the first wrong character is counted from 1 without spaces", () => {
    expect(checkSerial(LUHN_RULE, "H B-7 9X27398713")).toMatchObject({
      code: "character",
      position: 6,
      problem: 'Character 6 is "X" where a digit belongs: compare it with the label.',
    });
  });

  test("MOD 11-2 may end in X although the mask says # (ISO/IEC 7064, memory: 079X)", () => {
    const rule = { mask: "#{4}", check: "mod11-2" } as const;
    expect(checkSerial(rule, "079x")).toEqual({ ok: true, serial: "079X" });
    expect(checkSerial(rule, "07X9")).toMatchObject({ code: "character", position: 3 });
  });

  test("fixed digits of the mask are covered by Luhn, fixed letters by MOD 37,36", () => {
    expect(checkSerial({ mask: "HB7-#{10}", check: "luhn" }, "HB7-9927398713").ok).toBe(true);
    const rule = { mask: "A12425GABC-*{8}", check: "mod37-36" } as const;
    expect(checkSerial(rule, "A12425GABC-1234002M").ok).toBe(true);
  });
});

describe("look-alike characters are suggested, never changed (pairs: common practice)", () => {
  test.each([
    ["HB-7992739B713", LUHN_SERIAL],
    ["H8-79927398713", LUHN_SERIAL],
    ["HB-799Z739B7I3", LUHN_SERIAL],
  ])("%s: does the label say %s?", (typed, suggestion) => {
    const checked = checkSerial(LUHN_RULE, typed);
    expect(checked).toMatchObject({ ok: false, code: "character", suggestion });
    expect(checked.ok || checked.problem).toContain(suggestion);
  });

  test("O for 0 is found by the check digit where the mask allows both", () => {
    expect(checkSerial(HYBRID_RULE, "A12425GABC12340O2M")).toMatchObject({
      code: "check-digit",
      suggestion: HYBRID_SERIAL,
    });
  });

  test("where two look-alikes pass the check digit, neither is named", () => {
    const rule = { mask: "*{6}", check: "mod37-36" } as const;
    expect(checkSerial(rule, "I028Z0").ok && checkSerial(rule, "I02BZO").ok).toBe(true);
    const checked = checkSerial(rule, "I02BZ0");
    expect(checked).toMatchObject({ ok: false, code: "check-digit" });
    expect(checked).not.toHaveProperty("suggestion");
  });

  test("a look-alike that fails the check digit is not suggested", () => {
    expect(checkSerial(LUHN_RULE, "HB-799273987I4")).not.toHaveProperty("suggestion");
    expect(checkSerial({ ...LUHN_RULE, check: "none" }, "HB-799273987I4")).toHaveProperty(
      "suggestion",
      "HB-79927398714",
    );
  });

  test.each([
    ["@#", "01", "O1"],
    ["@#", "0I", "O1"],
    ["@#", "8S", "B5"],
    ["L#", "1Q", "L0"],
    ["1@", "L5", "1S"],
    ["@#", "3E", undefined],
  ])("mask %s, typed %s: suggested %s", (mask, typed, suggestion) => {
    const checked = checkSerial({ mask, check: "none" }, typed);
    expect(checked.ok === false && checked.suggestion).toBe(suggestion);
  });
});

test("a generated serial passes, and whatever is suggested passes its own check", () => {
  const wildcard = fc.constantFrom("#", "@", "*", "A", "8", "-");
  const rules = fc.tuple(
    fc.array(wildcard, { minLength: 1, maxLength: 20 }),
    fc.constantFrom(...CHECK_SCHEMES),
  );
  const typed = fc.array(fc.constantFrom(..."0O1IB8S5Z2GA-9"), { maxLength: 22 });
  fc.assert(
    fc.property(rules, typed, ([parts, check], characters) => {
      const rule = { mask: parts.join(""), check };
      const checked = checkSerial(rule, characters.join(""));
      if (checked.ok) return checked.serial === characters.join("");
      if (!checked.suggestion) return true;
      return checkSerial(rule, checked.suggestion).ok;
    }),
    { numRuns: 5000 },
  );
});

test("a serial made by appending the check digit always passes", () => {
  const body = fc.stringMatching(/^[0-9]{1,20}$/);
  fc.assert(
    fc.property(body, fc.constantFrom(...CHECK_SCHEMES), (digits, check) => {
      const computed = checkCharacter(check, digits);
      if (!computed.ok) throw new Error(computed.problem);
      const serial = digits + computed.check;
      const wildcard = check === "mod37-2" || check === "mod37-36" ? "*" : "#";
      return checkSerial({ mask: `${wildcard}{${serial.length}}`, check }, serial).ok;
    }),
    { numRuns: 2000 },
  );
});
