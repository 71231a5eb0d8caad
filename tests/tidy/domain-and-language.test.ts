import { describe, expect, test } from "vitest";
import { checkDocstrings, checkDomainOpenings, checkDomainPurity } from "./domain.ts";
import { checkConsole, checkErasable, checkTestsExpect, checkTestsRun } from "./language.ts";

const domain = (text: string) => [{ path: "src/domain/plan/a.ts", text }];
const code = (text: string, path = "src/web/a.ts") => [{ path, text }];

describe("domain purity", () => {
  test.each([
    "const a = Date.now();",
    "const a = new Date();",
    "const a = new Date(0);",
    "const a = Date();",
    "const a = process.env.A;",
    "const a = globalThis.process;",
    "const a = Buffer.from(b);",
    "const a = { Buffer };",
    "const a = list[process];",
    "const a = Math.random();",
    "const a = Temporal.Now.instant();",
    "const a = globalThis.crypto.randomUUID();",
    "await fetch(a);",
    "setTimeout(a, 1);",
  ])("%s is found", (text) => {
    expect(checkDomainPurity(domain(`\n${text}`))[0]).toContain("src/domain/plan/a.ts:2:");
  });

  test.each([
    "// new Date() and process",
    'const a = "Date.now()";',
    "const a = plan.process;",
    "const a = { process: 1 };",
    "type A = { process: string };",
    "const a = Date.UTC(2026, 2, 14);",
    "const a = Temporal.PlainDate.from(b);",
    "const a = globalThis.crypto.subtle;",
  ])("%s is allowed", (text) => {
    expect(checkDomainPurity(domain(text))).toEqual([]);
  });

  test("outside the domain the clock is allowed", () => {
    expect(checkDomainPurity(code("const a = new Date();"))).toEqual([]);
  });
});

describe("docstrings and openings", () => {
  test.each([
    "export function a() {}",
    "// Not a docstring.\nexport function a() {}",
    "/* Not one either. */\nexport async function a() {}",
    "export const a = () => 1;",
    "function a() {}\nexport { a };",
    "export default function () {}",
    "/** Of b. */\nexport const b = 1;\nexport function a() {}",
  ])("%j is found", (text) => {
    expect(checkDocstrings(domain(text))).toHaveLength(1);
  });

  test.each([
    "/** Adds. */\nexport function a() {}",
    "/**\n * Adds.\n */\nexport const a = (b: number) => b;",
    "/** Adds. */\nfunction a() {}\nexport { a };",
    "/** Adds. */\nexport function a(b: string): void;\nexport function a(b: unknown) {}",
    "function a() {}",
    "export const a = 1;",
    'export { a } from "./b.ts";',
  ])("%j is allowed", (text) => {
    expect(checkDocstrings(domain(text))).toEqual([]);
  });

  test("a domain file that opens with code is found", () => {
    expect(checkDomainOpenings(domain('import a from "./a.ts";'))).toHaveLength(1);
    expect(checkDomainOpenings(domain("//\nconst a = 1;"))).toHaveLength(1);
    expect(checkDomainOpenings(domain("// Requirement: …"))).toEqual([]);
    expect(checkDomainOpenings(code("const a = 1;"))).toEqual([]);
  });
});

describe("language", () => {
  test.each([
    "enum A { B }",
    "export const enum A { B }",
    "namespace A { export const b = 1; }",
    "class A { constructor(private b: string) {} }",
    "@sealed class A {}",
    "class A { @log b() {} }",
  ])("%s is found", (text) => {
    expect(checkErasable(code(text))).toHaveLength(1);
  });

  test("types added to a module or to the globals are allowed", () => {
    const text = 'declare module "fastify" { interface A {} }\ndeclare global { interface B {} }';
    expect(checkErasable(code(text))).toEqual([]);
  });

  test("console is found outside what talks to a terminal", () => {
    const text = "console.log(1);";
    expect(checkConsole(code(text))).toHaveLength(1);
    expect(checkConsole(code(text, "tests/a.test.ts"))).toHaveLength(1);
    for (const path of ["src/serve.ts", "src/cli/people.ts", "bench/gate.ts"]) {
      expect(checkConsole(code(text, path))).toEqual([]);
    }
    expect(checkConsole(code("// console.log"))).toEqual([]);
  });
});

describe("tests", () => {
  const one = (text: string) => code(text, "tests/a.test.ts");

  test.each([
    "test.only('a', () => {});",
    "it.skip('a', () => {});",
    "describe.skip.each([1])('a', () => {});",
    "test.concurrent.only('a', () => {});",
    "test.todo('a');",
  ])("%s is found", (text) => {
    expect(checkTestsRun(one(text))).toHaveLength(1);
  });

  test("members of other objects may be called so", () => {
    expect(checkTestsRun(one("plan.only(a); page.skip; test.each([1])('a', b);"))).toEqual([]);
  });

  test.each([
    ["no expectation", "test('a', () => { run(); });"],
    ["an expectation in a comment", "// expect(a).toBe(1)"],
    ["an expectation of a constant", "test('a', () => { expect(true).toBe(true); });"],
  ])("%s is found", (_name, text) => {
    expect(checkTestsExpect(one(text))).toHaveLength(1);
  });

  test("an expectation of what the code gives is allowed", () => {
    expect(checkTestsExpect(one("test('a', () => { expect(run()).toBe(true); });"))).toEqual([]);
    expect(checkTestsExpect(one("test('a', () => expect.soft(run()).toBe(1));"))).toEqual([]);
    expect(checkTestsExpect(code("run();", "tests/support/run.ts"))).toEqual([]);
  });
});
