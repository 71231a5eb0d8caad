// Papers of any length, as PDF.js reads them.
import { expect, test } from "vitest";
import type { Block, Paper } from "../../src/features/papers/block.ts";
import { drawPaper } from "../../src/features/papers/draw-paper.ts";
import { readPdf, squeezed } from "../support/read-pdf.ts";

const paper = (blocks: Block[], more: Partial<Paper> = {}): Paper => ({
  ...{ title: "Practice", language: "en", size: "a4", at: "2026-11-25T17:00:00.000Z" },
  ...{
    author: "Alder",
    header: "Alder",
    draft: undefined,
    unprintable: "unprintable",
    blocks,
    colour: "#14524d",
  },
  ...more,
});
const numbered = (count: number, word: string): string =>
  Array.from({ length: count }, (_, at) => `${word}${at}`).join(" ");

test.each(["a4", "letter"] as const)(
  "a cell of several pages loses no word on %s",
  async (size) => {
    const columns = [
      { title: "Short", share: 1 },
      { title: "Long", share: 1 },
    ];
    const long = numbered(2600, "word");
    const blocks: Block[] = [
      {
        kind: "table",
        columns,
        rows: [
          ["one", long],
          ["two", "end"],
        ],
      },
    ];
    const read = await readPdf(await drawPaper(paper(blocks, { size })));
    expect(read.pages).toBeGreaterThan(2);
    for (const word of long.split(" ")) expect(read.text).toContain(word);
    expect(read.text.indexOf("two")).toBeGreaterThan(read.text.indexOf("word2599"));
  },
);

test("a word without an end, a text of several pages and a draft's mark go together", async () => {
  const blocks: Block[] = [
    { kind: "heading", level: 1, text: "x".repeat(400) },
    { kind: "text", text: numbered(2400, "text") },
    { kind: "facts", rows: [["label", numbered(300, "fact")]] },
    { kind: "list", items: [numbered(200, "item")] },
    { kind: "caution", title: "Care", items: ["Keep clear."] },
  ];
  const read = await readPdf(await drawPaper(paper(blocks, { draft: "DRAFT" })));
  expect(read.text).toContain("x".repeat(200));
  for (const word of ["text2399", "fact299", "item199", "Keepclear."]) {
    expect(read.text).toContain(word);
  }
  expect(read.text.split("DRAFT").length - 1).toBe(2 * read.pages);
  expect(new Set(read.roots)).toEqual(new Set(["Document"]));
});

test("letters of Latin alphabets and signs of measure have their shapes", async () => {
  // Languages whose alphabets are written in Latin letters (Unicode blocks Latin-1, Extended-A).
  const letters = Array.from({ length: 0x17f - 0xc0 }, (_, at) => String.fromCodePoint(0xc0 + at));
  const signs = "Ω μ ° ± ≤ ≥ · × – — ² ³ € “ ” ‘ ’";
  const text = `${letters.filter((letter) => letter !== "ŉ").join(" ")} ${signs}`;
  const read = await readPdf(await drawPaper(paper([{ kind: "text", text }])));
  expect(read.text).toContain(squeezed(text));
  expect(read.text).not.toContain("unprintable");
});

test("the same paper gives the same bytes", async () => {
  const made = async () => drawPaper(paper([{ kind: "text", text: "Same." }]));
  expect((await made()).equals(await made())).toBe(true);
});
