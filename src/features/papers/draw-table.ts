// Tables over several pages: the heading is repeated for the eye, and stands once in the tree.
import type { Column } from "./block.ts";
import { type Element, INK, PLAIN, RULE, SHADE, type Sheet, STRONG } from "./sheet.ts";

const SIZE = 8.5;
const PAD_X = 4;
const PAD_Y = 3;

interface Box {
  x: number;
  width: number;
}

export function drawTable(
  sheet: Sheet,
  columns: readonly Column[],
  rows: readonly (readonly string[])[],
): void {
  const boxes = boxesOf(sheet, columns);
  const titles = columns.map(({ title }) => title);
  const table = sheet.element(sheet.root, "Table");
  sheet.type(STRONG, SIZE);
  const headHeight = rowHeight(sheet, titles, boxes);
  const head = { heads: true, height: headHeight };
  sheet.needs(headHeight + 40);
  drawRow(sheet, boxes, titles, { in: sheet.element(table, "TR"), ...head });
  for (const row of rows) {
    for (const part of partsOf(sheet, row, boxes)) {
      sheet.type(PLAIN, SIZE);
      const height = rowHeight(sheet, part, boxes);
      if (sheet.needs(height)) drawRow(sheet, boxes, titles, head);
      drawRow(sheet, boxes, part, { in: sheet.element(table, "TR"), heads: false, height });
    }
  }
  table.end();
  sheet.pdf.y += 8;
}

function boxesOf(sheet: Sheet, columns: readonly Column[]): Box[] {
  const all = columns.reduce((sum, { share }) => sum + share, 0);
  let x = sheet.left;
  return columns.map(({ share }) => {
    const box = { x, width: (sheet.width * share) / all };
    x += box.width;
    return box;
  });
}

const inner = ({ width }: Box): number => width - 2 * PAD_X;

function rowHeight({ pdf }: Sheet, texts: readonly string[], boxes: readonly Box[]): number {
  const heights = boxes.map((box, at) =>
    pdf.heightOfString(texts[at] || " ", { width: inner(box) }),
  );
  return Math.max(...heights) + 2 * PAD_Y;
}

/** Without an element to stand in, the row is for the eye alone. */
function drawRow(
  sheet: Sheet,
  boxes: readonly Box[],
  texts: readonly string[],
  { in: parent, heads, height }: { in?: Element; heads: boolean; height: number },
): void {
  const { pdf } = sheet;
  sheet.type(heads ? STRONG : PLAIN, SIZE);
  const top = pdf.y;
  sheet.artifact(() => {
    if (heads) pdf.rect(sheet.left, top, sheet.width, height).fill(SHADE);
    const under = top + height;
    pdf.moveTo(sheet.left, under).lineTo(sheet.left + sheet.width, under);
    pdf.lineWidth(0.5).stroke(RULE);
  });
  for (const [at, box] of boxes.entries()) {
    const draw = () => {
      pdf.fillColor(INK);
      pdf.text(sheet.shown(texts[at] ?? ""), box.x + PAD_X, top + PAD_Y, { width: inner(box) });
    };
    if (!parent) sheet.artifact(draw, "Pagination");
    else if (heads) sheet.element(parent, "TH", draw, { scope: "Column" });
    else sheet.element(parent, "TD", draw);
  }
  parent?.end();
  pdf.x = sheet.left;
  pdf.y = top + height;
}

/** A row higher than a page goes on in further rows. */
function partsOf(sheet: Sheet, row: readonly string[], boxes: readonly Box[]): string[][] {
  sheet.type(PLAIN, SIZE);
  const most = sheet.fullHeight * 0.8;
  const parts: string[][] = [];
  let rest = row.map(String);
  while (rest.some((text) => text !== "") || parts.length === 0) {
    const split = rest.map((text, at) => fitting(sheet, text, inner(boxes[at] as Box), most));
    parts.push(split.map(([head]) => head));
    rest = split.map(([, tail]) => tail);
  }
  return parts;
}

function fitting(
  { pdf }: Sheet,
  text: string,
  width: number,
  height: number,
): [head: string, tail: string] {
  if (text.length < 200 || pdf.heightOfString(text, { width }) <= height) return [text, ""];
  let [fits, fails] = [1, text.length];
  while (fails - fits > 1) {
    const middle = Math.floor((fits + fails) / 2);
    if (pdf.heightOfString(text.slice(0, middle), { width }) <= height) fits = middle;
    else fails = middle;
  }
  const space = text.lastIndexOf(" ", fits);
  const cut = space > fits / 2 ? space : fits;
  return [text.slice(0, cut), text.slice(cut).trimStart()];
}
