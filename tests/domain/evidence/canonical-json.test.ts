import referenceCanonicalize from "canonicalize";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  CANONICAL_DEPTH_MAX,
  canonicalize,
  parseCanonical,
  tryCanonicalize,
} from "../../../src/domain/evidence/canonical-json.ts";

describe("published vectors of RFC 8785", () => {
  // The RFC's own test data: testdata/{input,output} of the JSON canonicalization repository.
  test("3.2.2: values.json", () => {
    const input = String.raw`{
      "numbers": [1E30, 4.50, 333333333.33333329, 2e-3, 0.000000000000000000000000001],
      "escaping": "\u20ac$\u000F\u000aA'\u0042\u0022\u005c\\\"\/",
      "literals": [null, true, false]
    }`;
    expect(canonicalize(JSON.parse(input))).toBe(
      String.raw`{"escaping":"€$\u000f\nA'B\"\\\\\"/","literals":[null,true,false],` +
        `"numbers":[1e+30,4.5,333333333.3333333,0.002,1e-27]}`,
    );
  });

  test("3.2.3: member names sort by UTF-16 code units, so U+1F600 stands before U+FB33", () => {
    const names = ["\u20ac", "\r", "\ufb33", "1", "\u{1f600}", "\u0080", "\u00f6"];
    const sorted = ["\\r", "1", "\u0080", "\u00f6", "\u20ac", "\u{1f600}", "\ufb33"];
    const written = canonicalize(Object.fromEntries(names.map((name) => [name, 0])));
    expect(written).toBe(`{${sorted.map((name) => `"${name}":0`).join(",")}}`);
  });

  test("structures.json: names sort as texts at every depth, the empty one first", () => {
    const input = {
      "1": { f: { f: "hi", F: 5 }, "\n": 56.0 },
      "10": {},
      "": "empty",
      a: {},
      "111": [{}],
      A: {},
    };
    expect(canonicalize(input)).toBe(
      String.raw`{"":"empty","1":{"\n":56,"f":{"F":5,"f":"hi"}},"10":{},"111":[{}],"A":{},"a":{}}`,
    );
  });

  test.each([
    ["0000000000000000", "0"],
    ["8000000000000000", "0"],
    ["0000000000000001", "5e-324"],
    ["8000000000000001", "-5e-324"],
    ["7fefffffffffffff", "1.7976931348623157e+308"],
    ["ffefffffffffffff", "-1.7976931348623157e+308"],
    ["4340000000000000", "9007199254740992"],
    ["c340000000000000", "-9007199254740992"],
    ["4430000000000000", "295147905179352830000"],
    ["44b52d02c7e14af5", "9.999999999999997e+22"],
    ["44b52d02c7e14af6", "1e+23"],
    ["44b52d02c7e14af7", "1.0000000000000001e+23"],
    ["444b1ae4d6e2ef4e", "999999999999999700000"],
    ["444b1ae4d6e2ef4f", "999999999999999900000"],
    ["444b1ae4d6e2ef50", "1e+21"],
    ["3eb0c6f7a0b5ed8c", "9.999999999999997e-7"],
    ["3eb0c6f7a0b5ed8d", "0.000001"],
    ["41b3de4355555553", "333333333.3333332"],
    ["41b3de4355555554", "333333333.33333325"],
    ["41b3de4355555555", "333333333.3333333"],
    ["41b3de4355555556", "333333333.3333334"],
    ["41b3de4355555557", "333333333.33333343"],
    ["becbf647612f3696", "-0.0000033333333333333333"],
    ["43143ff3c1cb0959", "1424953923781206.2"],
  ])("Appendix B: the double with bits %s is written %s", (bits, text) => {
    expect(canonicalize(fromBits(bits))).toBe(text);
  });

  test.each([
    ["7fffffffffffffff", "NaN"],
    ["7ff0000000000000", "Infinity"],
    ["fff0000000000000", "-Infinity"],
  ])("Appendix B: the double with bits %s (%s) is refused", (bits, name) => {
    const refused = tryCanonicalize({ reading: fromBits(bits) });
    const problem = `Not canonical JSON at "/reading": ${name} is no JSON number.`;
    expect(refused).toEqual({ ok: false, problem });
  });
});

test("any JSON value is written as the canonicalize package writes it, and reads back", () => {
  fc.assert(
    fc.property(fc.jsonValue({ maxDepth: 6, stringUnit: "binary" }), (value) => {
      const text = canonicalize(value);
      expect(text).toBe(referenceCanonicalize(value));
      expect(parseCanonical(text)).toEqual({ ok: true, value: JSON.parse(JSON.stringify(value)) });
    }),
    { numRuns: 2_000 },
  );
});

describe("refusals", () => {
  const cycle: Record<string, unknown> = {};
  cycle.inside = [cycle];

  test.each<[string, unknown, string]>([
    ["a lone surrogate in a text", { note: "\ud83d" }, '"/note"'],
    ["a lone surrogate in a name", { "\udc00": 1 }, "surrogate"],
    ["undefined", undefined, "undefined is no JSON value"],
    ["an undefined member", { note: undefined }, '"/note"'],
    ["a hole in an array", new Array(2), '"/0"'],
    ["a bigint", { a: [0, 1n] }, '"/a/1"'],
    ["a function", () => 1, "function is no JSON value"],
    ["a symbol", Symbol("x"), "symbol is no JSON value"],
    ["a symbol as a name", { [Symbol("x")]: 1 }, "only plain objects"],
    ["a date", new Date(0), "only plain objects"],
    ["a map", { m: new Map() }, '"/m"'],
    ["a boxed number", Object(1), "only plain objects"],
    ["a cycle", cycle, 'at "/inside/0": the value contains itself'],
    ["a name that needs escaping in a pointer", { "a/b~c": [1n] }, '"/a~1b~0c/0"'],
  ])("%s is refused with its place", (_name, value, words) => {
    const refused = tryCanonicalize(value);
    expect(refused.ok ? "" : refused.problem).toContain(words);
    expect(() => canonicalize(value)).toThrow(TypeError);
  });

  test("64 containers inside one another are written, 65 are refused", () => {
    expect(tryCanonicalize(nested(CANONICAL_DEPTH_MAX)).ok).toBe(true);
    const refused = tryCanonicalize(nested(CANONICAL_DEPTH_MAX + 1));
    expect(refused.ok ? "" : refused.problem).toContain("more than 64 levels deep");
  });

  test("the same object twice side by side is no cycle", () => {
    const shared = { a: 1 };
    expect(canonicalize([shared, shared])).toBe('[{"a":1},{"a":1}]');
  });

  test("an object without a prototype is plain", () => {
    const bare = Object.assign(Object.create(null), { b: 2, a: 1 });
    expect(canonicalize(bare)).toBe('{"a":1,"b":2}');
  });
});

test.each([
  ['{"a":1,"b":2}', true],
  ['{"__proto__":{"a":1}}', true],
  ['{"b":2,"a":1}', false],
  ['{"a": 1}', false],
  ['{"a":1.0}', false],
  ['{"a":1,"a":1}', false],
  ['"\\u0041"', false],
  ['"\\ud83d"', false],
  ["-0", false],
  ["1e400", false],
  ["", false],
  ["{", false],
])("%j is canonical text: %s", (text, ok) => {
  expect(parseCanonical(text).ok).toBe(ok);
});

function fromBits(bits: string): number {
  const view = new DataView(new ArrayBuffer(8));
  view.setBigUint64(0, BigInt(`0x${bits}`));
  return view.getFloat64(0);
}

function nested(depth: number): unknown {
  let value: unknown = 0;
  for (let level = 0; level < depth; level += 1) value = level % 2 === 0 ? [value] : { a: value };
  return value;
}
