// RFC 4180: fields with commas, quotes or line ends are quoted, quotes doubled. That a cell which
// begins like a formula gets an apostrophe is common practice, no source.
import { expect, test } from "vitest";
import { csvCell } from "../../../src/domain/evidence/readings-csv.ts";

test.each([
  ["plain", "plain"],
  ["", ""],
  ["a,b", '"a,b"'],
  ['say "so"', '"say ""so"""'],
  ["two\nlines", '"two\nlines"'],
  ["=1+1", "'=1+1"],
  ["+cmd", "'+cmd"],
  ["-cmd", "'-cmd"],
  ["@sum", "'@sum"],
  ["\t=1", "'\t=1"],
  ['=HYPERLINK("x","y")', `"'=HYPERLINK(""x"",""y"")"`],
  ["-5", "-5"],
  ["+5.25", "+5.25"],
  ["-5,25", '"-5,25"'],
  ["-5-1", "'-5-1"],
])("%j is written %j", (text, cell) => {
  expect(csvCell(text)).toBe(cell);
});
