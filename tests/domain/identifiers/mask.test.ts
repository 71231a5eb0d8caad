import { describe, expect, test } from "vitest";
import { checkSerial } from "../../../src/domain/identifiers/check-serial.ts";
import { fits, parseMask } from "../../../src/domain/identifiers/mask.ts";
import { serialRuleProblem } from "../../../src/domain/identifiers/serial-rule.ts";

describe("masks", () => {
  test.each([
    ["#", 1],
    ["AB-#{8}", 11],
    ["@{2}#{6}*", 9],
    ["\\#\\@\\*\\\\\\{\\}", 6],
    ["x{3}", 3],
    ["*{64}", 64],
    ["#{9}#{9}", 18],
  ])("%s describes serials of %d characters", (mask, length) => {
    const reading = parseMask(mask);
    expect(reading.ok && reading.mask.length).toBe(length);
  });

  test.each([
    ["", 1],
    ["#{65}", 5],
    ["*{64}#", 6],
    ["#{0}", 2],
    ["#{1000}", 2],
    ["#{", 2],
    ["#{a}", 2],
    ["{3}", 1],
    ["A}", 2],
    ["AB\\", 3],
    ["A B", 2],
    ["Ä#", 1],
    ["#{2}{2}", 5],
    ["#".repeat(201), 200],
  ])("%j is refused at character %d", (mask, position) => {
    expect(parseMask(mask)).toEqual({ ok: false, position, problem: expect.any(String) });
  });

  test.each([
    ["#", "0129", "A a-٣"],
    ["@", "AZ", "09a-Ä"],
    ["*", "0A9Z", "-a_ "],
    ["\\#", "#", "0"],
    ["a", "A", "a"],
    ["(", "(", ")"],
  ])("%s takes each of %j and none of %j", (mask, taken, refused) => {
    const reading = parseMask(mask);
    if (!reading.ok) throw new Error(reading.problem);
    const [position] = reading.mask;
    if (!position) throw new Error("no position");
    expect([...taken].filter((character) => !fits(position, character))).toEqual([]);
    expect([...refused].filter((character) => fits(position, character))).toEqual([]);
  });

  test("a regular expression typed as a mask stands for its own characters (CWE-1333)", () => {
    const rule = { mask: "(A+)+$", check: "none" } as const;
    expect(checkSerial(rule, "(a+)+$")).toEqual({ ok: true, serial: "(A+)+$" });
    expect(checkSerial(rule, "AAAAAA").ok).toBe(false);
  });
});

describe("a serial rule is checked when it is set up", () => {
  test.each([
    ["HB-#{8}", "luhn"],
    ["HB-#{8}", "none"],
    ["#{16}", "mod11-2"],
    ["@*{8}", "mod37-36"],
    ["@{4}#{4}", "mod97-10"],
  ] as const)("%s with %s can work", (mask, check) => {
    expect(serialRuleProblem({ mask, check })).toBeUndefined();
  });

  test.each([
    ["@#{8}", "luhn", "covers digits only"],
    ["*{8}", "mod11-2", "covers digits only"],
    ["#{8}A", "luhn", "must end"],
    ["AB-#", "luhn", "must end"],
    ["##", "mod97-10", "must end"],
    ["*{4}@", "mod37-36", "must end"],
    ["#{", "luhn", "After {"],
  ] as const)("%s with %s cannot", (mask, check, reason) => {
    expect(serialRuleProblem({ mask, check })).toContain(reason);
    expect(checkSerial({ mask, check }, "12345678")).toMatchObject({ ok: false, code: "rule" });
  });
});
