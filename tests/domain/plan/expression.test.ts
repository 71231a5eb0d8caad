import { describe, expect, test } from "vitest";
import { compileExpression } from "../../../src/domain/plan/expression.ts";
import { NAMES, resolve, worked } from "./scope.ts";

describe("names in expressions", () => {
  test.each([
    ["value", 12],
    ["site.supply", "TT"],
    ["(answers).pack_voltage", 52.8],
    ["answers . pack_voltage", 52.8],
    ["answers.breaker_off", true],
    ["answers.constructor", 7],
    ["highest(readings.pack_voltage) - lowest(readings.pack_voltage)", 52.8 - 52.5],
    ["size(readings.pack_voltage)", 2],
  ])("%s is %j", (text, expected) => {
    expect(worked(text)).toBe(expected);
  });

  test.each([
    ["answers.nothing", "answers.nothing is no other item with a plain answer"],
    ["model.constructor", "model.constructor is no attribute this plan declares"],
    ["answers.__proto__", "answers.__proto__ is no other item"],
    ["site.timeZone", "site.timeZone is not known: a site has supply"],
    ["answers", "answers is read part by part, such as answers.pack_voltage"],
    ["constructor", "constructor is not a name plans know"],
    ["cells + 1", "cells is not a name plans know"],
    ["d0", "d0 is not a name plans know"],
    ["this.process", "this.process is not a name plans know"],
  ])("%s is an unknown name", (text, reason) => {
    expect(worked(text)).toContain("unknown-name: ");
    expect(worked(text)).toContain(reason);
  });

  test("value is unknown outside the expression of a limit", () => {
    const compiled = compileExpression("value > 1", () => undefined, "bool");
    expect(compiled).toMatchObject({ ok: false, code: "unknown-name" });
  });

  test("what it reads is listed, readings of all subjects apart", () => {
    const text = "answers.pack_voltage > lowest(readings.pack_voltage) && answers.breaker_off";
    const compiled = compileExpression(text, resolve, "bool");
    if (!compiled.ok) throw new Error(compiled.problem);
    expect(compiled.expression.uses).toEqual(["pack_voltage", "breaker_off"]);
    expect(compiled.expression.usesAll).toEqual(["pack_voltage"]);
  });

  test("a value of another type than declared is not known, rather than used", () => {
    const names = { ...NAMES, model: { cells: "16" } };
    expect(worked("model.cells * 2", names)).toBe("error: model.cells is not known here");
  });

  test("inherited members of what is handed in are not read", () => {
    const names = { answers: Object.create({ pack_voltage: 1 }) };
    expect(worked("answers.pack_voltage", names)).toBe(
      "error: answers.pack_voltage is not known here",
    );
  });
});

describe("what is refused", () => {
  test.each([
    ["[1, 2].all(x, x > 0)", "there is no .all() for plans"],
    ["[].all(x, false)", "there is no .all() for plans"],
    ["readings.pack_voltage.exists(x, x > 0)", "there is no .exists() for plans"],
    ["has(answers.pack_voltage)", "there is no function has() for plans"],
    ["cel.bind(x, 1, x + x)", "there is no .bind() for plans"],
    ["'aaaa'.matches('(a+)+$')", "there is no .matches() for plans"],
    ["timestamp('2026-01-01T00:00:00Z') == timestamp('2026-01-01T00:00:00Z')", "timestamp()"],
    ["readings.pack_voltage[0]", '"[]" has no place in a plan'],
    ["{'a': 1}['a']", '"[]" has no place in a plan'],
    ["{'a': 1}.a", '"a" is asked of something that has no parts'],
    ["unit.serial.length", '"length" is asked of something that has no parts'],
    ["1 % 2", '"%" has no place in a plan'],
    ["dyn(1)", "there is no function dyn() for plans"],
  ])("%s", (text, reason) => {
    expect(worked(text)).toContain("not-allowed: ");
    expect(worked(text)).toContain(reason);
  });

  test.each([
    ["unit.serial + 1", "+ does not go between a text and a number"],
    ["model.hasHeater > 1", "> does not go between true or false and a number"],
    ["max_zs(32, 'B')", "max_zs() does not take a number, a text"],
    ["['a', 1]", "List elements must have the same type"],
  ])("%s has a wrong type", (text, reason) => {
    expect(worked(text)).toContain("wrong-type: ");
    expect(worked(text)).toContain(reason);
  });

  test("a result of another type than needed is named", () => {
    expect(compileExpression("1 + 1", resolve, "bool")).toEqual({
      ok: false,
      code: "wrong-type",
      problem:
        'The expression "1 + 1" cannot be used: it gives a number, where true or false is needed.',
    });
  });

  test.each(["1 +", "(1", "'open", "a b", "", "1..2", "if"])("%j is no expression", (text) => {
    expect(worked(text)).toMatch(/^syntax: The expression/);
  });

  test.each([
    ["deep brackets", `${"(".repeat(480)}1${")".repeat(480)}`],
    ["deep lists", "[".repeat(480) + "]".repeat(480)],
    ["deep conditions", `${"true ? ".repeat(120)}1${" : 2".repeat(120)}`],
    ["many nodes", Array.from({ length: 400 }, () => "1").join("+")],
    ["a long list", `1 in [${Array.from({ length: 400 }, () => "1").join(",")}]`],
    ["many signs", `${"!".repeat(900)}true`],
  ])("%s", (_what, text) => {
    expect(worked(text)).toContain("it is too long or too deep");
  });

  test("the longest expression that is let in is still worked out", () => {
    expect(worked(Array.from({ length: 150 }, () => "1").join("+"))).toBe(150);
    expect(worked(`${"-".repeat(200)}1`)).toBe(1);
  });
});

describe("what fails when it is worked out", () => {
  test.each([
    ["answers.absent + 1", "error: answers.absent is not known here"],
    ["max_zs('Q', 32)", "error: "],
    ["lowest(readings.pack_voltage)", "error: there are no readings"],
    ["double('x')", "error: double() type error"],
  ])("%s tells why", (text, expected) => {
    expect(worked(text, { ...NAMES, readings: { pack_voltage: [] } })).toContain(expected);
  });
});
