// RFC 8493 (BagIt 1.0): 2.1.3 payload manifests, 2.2.2 bag-info.txt, and its example manifest in
// section 4.1 (from memory).
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  bagInfoText,
  isBagName,
  manifestText,
  parseManifest,
} from "../../../src/domain/evidence/bag-manifest.ts";

const SUM = "49afbd86a1ca9f34b677a3f09655eae9".repeat(2);

describe("names", () => {
  test.each(["README.txt", "bagit.txt", "data/photos/0a.jpg", "a_b-c/d.e.f", "0"])(
    "%s may be",
    (name) => expect(isBagName(name)).toBe(true),
  );

  test.each([
    "",
    "/a",
    "a/",
    "a//b",
    "../a",
    "a/../b",
    "a/.hidden",
    "A.txt",
    "a b",
    "ä",
    "a\nb",
    "a%0a",
    "data/README.txt",
  ])("%j may not be", (name) => expect(isBagName(name)).toBe(false));
});

describe("manifests", () => {
  test("are one line a file in the order of their names, checksum first", () => {
    const sums = new Map([
      ["data/b", SUM],
      ["data/a", SUM],
    ]);
    expect(manifestText(sums)).toBe(`${SUM}  data/a\n${SUM}  data/b\n`);
  });

  test("write CR, LF and % in a path by their codes, which no name of a bag holds", () => {
    const name = "data/a\r\nb 100%.txt";
    expect(manifestText(new Map([[name, SUM]]))).toBe(`${SUM}  data/a%0D%0Ab 100%25.txt\n`);
    expect(isBagName(name)).toBe(false);
  });

  test("come back as they were written", () => {
    const name = fc.stringMatching(/^[a-z0-9_-][a-z0-9._-]{0,9}$/);
    const sum = fc.stringMatching(/^[0-9a-f]{128}$/);
    fc.assert(
      fc.property(fc.array(fc.tuple(name, sum)), (entries) => {
        const sums = new Map(entries);
        const read = parseManifest(manifestText(sums), "sha512");
        expect(read.ok && new Map(read.checksums)).toEqual(sums);
      }),
    );
  });

  test.each([
    ["no line end", `${SUM}  data/a`],
    ["upper-case digits", `${SUM.toUpperCase()}  data/a\n`],
    ["one digit short", `${SUM.slice(1)}  data/a\n`],
    ["one digit more", `0${SUM}  data/a\n`],
    ["one space", `${SUM} data/a\n`],
    ["the mark of binary mode", `${SUM} *data/a\n`],
    ["an empty line", `${SUM}  data/a\n\n`],
    ["a path that leads out", `${SUM}  ../a\n`],
    ["a file twice", `${SUM}  data/a\n${SUM}  data/a\n`],
    ["the wrong order", `${SUM}  data/b\n${SUM}  data/a\n`],
  ])("with %s are refused", (_what, text) => {
    expect(parseManifest(text, "sha256").ok).toBe(false);
  });
});

test("bag-info.txt has a line for each value, whatever line ends the value holds", () => {
  const text = bagInfoText({ "Source-Organization": "Alder\r\nBagging-Date: 1999", A: " b " });
  expect(text).toBe("Source-Organization: Alder Bagging-Date: 1999\nA: b\n");
});
