// The part of CEL that plans may use, held to the CEL specification, language definition
// (github.com/google/cel-spec, doc/langdef.md), and its conformance tests (tests/simple/testdata).
import { describe, expect, test } from "vitest";
import { worked } from "./scope.ts";

describe("logical operators (langdef, Logical Operators; testdata logic)", () => {
  // `answers.gone` has no answer, so reading it is an error, as is 2/0 with whole numbers in CEL.
  test.each([
    ["true && true", true],
    ["false && false", false],
    ["false && true", false],
    ["true && false", false],
    ["false && answers.gone", false],
    ["answers.gone && false", false],
    ["true || true", true],
    ["false || false", false],
    ["false || true", true],
    ["true || answers.gone", true],
    ["answers.gone || true", true],
    ["!true", false],
    ["!false", true],
    ["!!true", true],
    ["true ? 1 : 2", 1],
    ["false ? 'foo' : 'bar'", "bar"],
    ["true ? 1 : answers.absent", 1],
    ["false ? answers.absent : 2", 2],
    ["false ? 1 : false ? 2 : 3", 3],
  ])("%s is %j", (text, expected) => {
    expect(worked(text)).toBe(expected);
  });

  test.each([
    "true && answers.gone",
    "answers.gone && true",
    "false || answers.gone",
    "answers.gone || false",
    "answers.gone ? 1 : 2",
    "!answers.gone",
  ])("%s is an error, not false", (text) => {
    expect(worked(text)).toBe("error: answers.gone is not known here");
  });

  test.each(["false && 32", "'horses' && false", "true || 32", "'cows' ? false : true"])(
    "%s is refused by the type check, as langdef allows it to be",
    (text) => {
      expect(worked(text)).toMatch(/^wrong-type: /);
    },
  );
});

describe("precedence and association (langdef, Syntax)", () => {
  test.each([
    ["1 + 2 * 3", 7],
    ["(1 + 2) * 3", 9],
    ["10 - 4 - 3", 3],
    ["100 / 10 / 5", 2],
    ["2 - -3", 5],
    ["- - 2", 2],
    ["-2 * 3", -6],
    ["1 + 1 == 2 && 2 < 3", true],
    ["true || true && false", true],
    ["1 < 2 == true", true],
    ["1 // a remark\n + 1", 2],
  ])("%s is %j", (text, expected) => {
    expect(worked(text)).toBe(expected);
  });

  test("32 operators in a row and 32 list elements are accepted, as langdef requires", () => {
    const row = (piece: string, joint: string) =>
      Array.from({ length: 33 }, () => piece).join(joint);
    expect(worked(row("1", " + "))).toBe(33);
    expect(worked(row("true", " && "))).toBe(true);
    expect(worked(row("false", " || "))).toBe(false);
    expect(worked(`1 in [${row("2", ", ")}, 1]`)).toBe(true);
  });
});

describe("strings (langdef, String and Bytes Values, table of examples)", () => {
  test.each([
    [`""`, ""],
    [`'""'`, '""'],
    [`'''x''x'''`, "x''x"],
    [`"\\""`, '"'],
    [`"\\\\"`, "\\"],
    [`r"\\\\"`, "\\\\"],
    [`"\\303\\277"`, "Ã¿"],
    [`"\\377"`, "ÿ"],
    [`"\\xFF"`, "ÿ"],
    [`"\\u00e9\\t"`, "é\t"],
  ])("%s", (text, expected) => {
    expect(worked(text)).toBe(expected);
  });
});

describe("equality, order, membership, text functions (langdef, Standard Definitions)", () => {
  test.each([
    ["'abc' == 'abc'", true],
    ["'a' < 'b'", true],
    ["'aa' < 'a'", false],
    ["'A' < 'a'", true],
    ["1 != 2", true],
    ["'TT' in ['TT', 'IT']", true],
    ["site.supply in ['TN-S', 'IT']", false],
    ["1 in []", false],
    ["size('hello')", 5],
    ["'hello'.size()", 5],
    ["size('😀')", 1],
    ["'hello'.contains('ell')", true],
    ["'hello'.startsWith('he')", true],
    ["'hello'.endsWith('lo')", true],
    ["'a' + 'b'", "ab"],
    ["double('3.14')", 3.14],
    ["string(2)", "2"],
  ])("%s is %j", (text, expected) => {
    expect(worked(text)).toBe(expected);
  });
});

describe("every number is a double, so whole numbers read as people write them", () => {
  test.each([
    ["model.cells * 3", 48],
    ["3 * model.cells", 48],
    ["7 / 2", 3.5],
    ["1 + 0x10", 17],
    ["0x1F", 31],
    ["unit.position - 1 == 0", true],
    ["size(unit.serial) == 7", true],
    ["unit.serial.size() * 2", 14],
    ["count.batteryPack >= 2 ? 40 : 20.5", 40],
    ["2e3", 2000],
    ["1.5 + 2", 3.5],
    ["9007199254740991", 9007199254740991],
    ["ra_max_ohm(30)", 50 / 0.03],
    ["parallel_ohm([2, 5, 10])", 1.25],
  ])("%s is %j", (text, expected) => {
    expect(worked(text)).toBeCloseTo(Number(expected), 6);
  });

  test.each(["9007199254740992", "1u", "null", 'b"abc"', "1 % 2"])("%s is refused", (text) => {
    expect(worked(text)).toMatch(/^(not-allowed|wrong-type): The expression/);
  });
});
