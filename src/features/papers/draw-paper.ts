// A paper as PDF bytes. The same paper gives the same bytes.
import { say } from "../../language/say.ts";
import type { Block, Paper } from "./block.ts";
import { drawAddressSquare, drawMark, drawPictures } from "./draw-pictures.ts";
import { drawTable } from "./draw-table.ts";
import { ALERT, type Element, FAINT, INK, PLAIN, Sheet, STRONG } from "./sheet.ts";

const HEADINGS = {
  1: { size: 20, before: 0, after: 6 },
  2: { size: 13, before: 12, after: 4 },
  3: { size: 10.5, before: 6, after: 3 },
} as const;
const TEXT_SIZE = 10;
const LABEL_SHARE = 0.28;

export async function drawPaper(paper: Paper): Promise<Buffer> {
  const sheet = new Sheet(paper);
  const { pdf } = sheet;
  const chunks: Buffer[] = [];
  const ended = new Promise<void>((resolve, reject) => {
    pdf.on("data", (chunk: Buffer) => chunks.push(chunk));
    pdf.once("end", resolve);
    pdf.once("error", reject);
  });
  for (const block of paper.blocks) drawBlock(sheet, block, paper.colour);
  if (sheet.unprintable > 0) drawText(sheet, sheet.root, paper.unprintable);
  sheet.root.end();
  drawEveryPage(sheet, paper);
  pdf.end();
  await ended;
  return Buffer.concat(chunks);
}

function drawBlock(sheet: Sheet, block: Block, colour: string): void {
  if (block.kind === "heading") drawHeading(sheet, block, colour);
  else if (block.kind === "text") drawText(sheet, sheet.root, block.text);
  else if (block.kind === "list") drawList(sheet, block.items);
  else if (block.kind === "caution") drawCaution(sheet, block.title, block.items);
  else if (block.kind === "facts") drawFacts(sheet, block.rows);
  else if (block.kind === "table") drawTable(sheet, block.columns, block.rows);
  else if (block.kind === "mark") drawMark(sheet, block.picture);
  else if (block.kind === "pictures") drawPictures(sheet, block.pictures);
  else drawAddressSquare(sheet, block);
}

type Heading = Extract<Block, { kind: "heading" }>;

function drawHeading(sheet: Sheet, { level, text }: Heading, colour: string): void {
  const { size, before, after } = HEADINGS[level];
  const { pdf } = sheet;
  pdf.y += before;
  sheet.needs(size + 60);
  sheet.element(sheet.root, `H${level}`, () => {
    sheet.type(STRONG, size, level === 3 ? INK : colour);
    pdf.text(sheet.shown(text), sheet.left, pdf.y, { width: sheet.width });
  });
  pdf.y += after;
}

function drawText(sheet: Sheet, parent: Element, text: string): void {
  const { pdf } = sheet;
  sheet.needs(TEXT_SIZE * 2);
  sheet.element(parent, "P", () => {
    sheet.type(PLAIN, TEXT_SIZE);
    pdf.text(sheet.shown(text), sheet.left, pdf.y, { width: sheet.width });
  });
  pdf.y += 5;
}

function drawList(sheet: Sheet, items: readonly string[], inset = 0): void {
  const list = sheet.element(sheet.root, "L");
  const { pdf } = sheet;
  const x = sheet.left + inset;
  for (const item of items) {
    const width = sheet.width - 2 * inset - 12;
    sheet.type(PLAIN, TEXT_SIZE);
    sheet.needs(pdf.heightOfString(item, { width }));
    const { y } = pdf;
    const entry = sheet.element(list, "LI");
    sheet.element(entry, "Lbl", () => pdf.text("•", x, y, { width: 10 }));
    sheet.element(entry, "LBody", () => pdf.text(sheet.shown(item), x + 12, y, { width }));
    entry.end();
    pdf.y += 2;
  }
  list.end();
  pdf.x = sheet.left;
  pdf.y += 4;
}

const INSET = 10;

function drawCaution(sheet: Sheet, title: string, items: readonly string[]): void {
  const { pdf } = sheet;
  sheet.type(PLAIN, TEXT_SIZE);
  const width = sheet.width - 2 * INSET - 12;
  const heights = items.map((item) => pdf.heightOfString(item, { width }) + 2);
  const height = heights.reduce((sum, each) => sum + each, 0) + 34;
  sheet.needs(height);
  const top = pdf.y;
  sheet.artifact(() => {
    pdf.lineWidth(0.75).rect(sheet.left, top, sheet.width, height).stroke(ALERT);
    pdf.rect(sheet.left, top, 4, height).fill(ALERT);
  });
  sheet.element(sheet.root, "H3", () => {
    sheet.type(STRONG, 11, ALERT);
    pdf.text(sheet.shown(`▲ ${title}`), sheet.left + INSET, top + 8, { width });
  });
  pdf.y += 2;
  drawList(sheet, items, INSET);
  pdf.y = top + height + 8;
}

function drawFacts(sheet: Sheet, rows: readonly (readonly [string, string])[]): void {
  const { pdf } = sheet;
  const table = sheet.element(sheet.root, "Table");
  const labelWidth = sheet.width * LABEL_SHARE;
  const width = sheet.width - labelWidth - 8;
  for (const [label, value] of rows) {
    sheet.type(STRONG, TEXT_SIZE - 0.5);
    const labelHeight = pdf.heightOfString(label, { width: labelWidth });
    sheet.type(PLAIN, TEXT_SIZE - 0.5);
    const height = Math.max(labelHeight, pdf.heightOfString(value || " ", { width })) + 4;
    sheet.needs(height);
    const top = pdf.y;
    const row = sheet.element(table, "TR");
    const head = () => {
      sheet.type(STRONG, TEXT_SIZE - 0.5, FAINT);
      pdf.text(sheet.shown(label), sheet.left, top, { width: labelWidth });
    };
    sheet.element(row, "TH", head, { scope: "Row" });
    sheet.element(row, "TD", () => {
      sheet.type(PLAIN, TEXT_SIZE - 0.5);
      pdf.text(sheet.shown(value), sheet.left + labelWidth + 8, top, { width });
    });
    row.end();
    pdf.y = top + height;
  }
  table.end();
  pdf.x = sheet.left;
  pdf.y += 6;
}

/** Head, foot and the mark of a draft, once the number of pages is known. */
function drawEveryPage(sheet: Sheet, paper: Paper): void {
  const { pdf, left, width } = sheet;
  const { start, count } = pdf.bufferedPageRange();
  for (let page = start; page < start + count; page += 1) {
    pdf.switchToPage(page);
    const { height } = pdf.page;
    // Text below the margin would start a page of its own.
    pdf.page.margins.bottom = 0;
    sheet.artifact(() => {
      const pages = say(paper.language, "papers.page", { page: page + 1, pages: count });
      sheet.type(PLAIN, 8, FAINT);
      pdf.text(sheet.shown(paper.header), left, 32, { width, lineBreak: false });
      pdf.text(pages, left, height - 40, { width, align: "right", lineBreak: false });
      if (paper.draft) {
        sheet.type(STRONG, 8, ALERT).text(paper.draft, left, height - 40, { lineBreak: false });
      }
      pdf
        .moveTo(left, 48)
        .lineTo(left + width, 48)
        .lineWidth(0.5)
        .stroke(paper.colour);
    }, "Pagination");
  }
}
