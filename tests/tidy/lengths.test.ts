import { describe, expect, test } from "vitest";
import { checkLengths, fileLengths, functionLengths, overLimit, wideLines } from "./lengths.ts";

const lines = (count: number) => "const a = 1;\n".repeat(count);
const body = (count: number) => "  a();\n".repeat(count);

describe("the limit that can only tighten", () => {
  test.each([
    [200, {}, []],
    [201, {}, ["a: 201, at most 200"]],
    [250, { a: 250 }, []],
    [251, { a: 250 }, ["a: 251, at most 250"]],
    [249, { a: 250 }, ["a: the table says 250 and it has 249; lower or drop the entry"]],
    [200, { a: 200 }, ["a: the table says 200 and it has 200; lower or drop the entry"]],
  ])("%d lines with the table %j", (count, table, found) => {
    expect(checkLengths({ a: count }, 200, table)).toEqual(found);
  });

  test("an entry for what is gone is stale", () => {
    expect(checkLengths({}, 200, { gone: 300 })).toHaveLength(1);
  });

  test("the table that is written holds what is over the limit, and passes", () => {
    const lengths = { b: 300, a: 201, c: 200 };
    expect(Object.entries(overLimit(lengths, 200))).toEqual([
      ["a", 201],
      ["b", 300],
    ]);
    expect(checkLengths(lengths, 200, overLimit(lengths, 200))).toEqual([]);
  });
});

describe("measured lengths", () => {
  test("files count by line; tables, rule packs and generated code do not count", () => {
    expect(
      fileLengths([
        { path: "src/a.ts", text: lines(3) },
        { path: "src/b.ts", text: "const a = 1;" },
        { path: "src/domain/x/tables/c.ts", text: lines(900) },
        { path: "src/domain/siting/rule-packs/d.ts", text: lines(900) },
        { path: "src/db/generated/e.ts", text: lines(900) },
        { path: "README.md", text: lines(900) },
      ]),
    ).toEqual({ "src/a.ts": 3, "src/b.ts": 1 });
  });

  test.each([
    ["a declaration", `function f() {\n${body(3)}}`, { f: 5 }],
    ["an arrow", `const f = () => {\n${body(3)}};`, { f: 5 }],
    ["a method", `class C {\n m() {\n${body(3)} }\n}`, { m: 5 }],
    ["a private method", `class C {\n #m() {\n${body(3)} }\n}`, { m: 5 }],
    ["a member", `const o = {\n f: async () => {\n${body(3)} },\n};`, { f: 5 }],
    ["one handed on", `app.get("/", () => {\n${body(3)}});`, { "app.get(…)": 5 }],
    ["one in another", `function f() {\n const g = () => {\n${body(1)} };\n}`, { f: 5, g: 3 }],
    ["two of one name", `const a = { f() {\n${body(1)}} }; const b = { f() {} };`, { f: 3 }],
    ["a describe", `describe.each([1])("x", () => {\n${body(50)}});`, {}],
    ["what registers routes", `const jobRoutes = () => {\n${body(50)}};`, {}],
    ["a string with a function", `const f = "function g() {\\n}";`, {}],
  ])("%s counts from its first line to its last", (_name, text, expected) => {
    const found = functionLengths([{ path: "src/a.ts", text }]);
    const named = Object.entries(found).map(([key, count]) => [
      key.replace("src/a.ts#", ""),
      count,
    ]);
    expect(Object.fromEntries(named)).toEqual(expected);
  });

  test("lines over 100 columns are counted, 100 are not over; columns are characters", () => {
    const wide = (count: number) => `"${"😀".repeat(count - 2)}"`;
    const text = [wide(100), wide(101), "a", wide(150)].join("\n");
    expect(wideLines([{ path: "src/a.ts", text }])).toEqual({ "src/a.ts": 2 });
    expect(wideLines([{ path: "src/a.ts", text: wide(100) }])).toEqual({});
    expect(wideLines([{ path: "src/domain/x/tables/a.ts", text }])).toEqual({});
  });
});
