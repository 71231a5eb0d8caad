import qrcode from "qrcode-generator";
import type { Block, PaperPicture } from "./block.ts";
import { FAINT, INK, PLAIN, type Sheet } from "./sheet.ts";

const GAP = 16;
const HEIGHT_MOST = 170;
const LINE_SIZE = 8;
const SQUARE = 96;
/** Modules of quiet zone around the square (ISO/IEC 18004: at least four). */
const QUIET = 4;

/** Two in a row, each with its lines below. */
export function drawPictures(sheet: Sheet, pictures: readonly PaperPicture[]): void {
  for (let at = 0; at < pictures.length; at += 2) drawPair(sheet, pictures.slice(at, at + 2));
  sheet.pdf.y += 4;
}

function drawPair(sheet: Sheet, pair: readonly PaperPicture[]): void {
  const { pdf } = sheet;
  const width = (sheet.width - GAP) / 2;
  sheet.type(PLAIN, LINE_SIZE, FAINT);
  const placed = pair.map((picture) => {
    const scale = Math.min(width / picture.widthPx, HEIGHT_MOST / picture.heightPx);
    const text = sheet.shown(picture.lines.join("\n"));
    return {
      ...{ picture, text, width: picture.widthPx * scale, height: picture.heightPx * scale },
      textHeight: pdf.heightOfString(text, { width }),
    };
  });
  const tallest = Math.max(...placed.map(({ height }) => height));
  const whole = tallest + 4 + Math.max(...placed.map(({ textHeight }) => textHeight)) + 10;
  sheet.needs(whole);
  const top = pdf.y;
  for (const [at, { picture, text, ...size }] of placed.entries()) {
    const x = sheet.left + at * (width + GAP);
    const bbox = [x, top, x + size.width, top + size.height];
    const draw = () => pdf.image(Buffer.from(picture.jpeg), x, top, size);
    sheet.element(sheet.root, "Figure", draw, { alt: sheet.shown(picture.alt), bbox });
    sheet.element(sheet.root, "P", () => {
      sheet.type(PLAIN, LINE_SIZE, FAINT).text(text, x, top + tallest + 4, { width });
    });
  }
  pdf.x = sheet.left;
  pdf.y = top + whole;
}

const MARK_WIDTH_MOST = 180;
const MARK_HEIGHT_MOST = 48;

export function drawMark(sheet: Sheet, picture: Omit<PaperPicture, "lines">): void {
  const { pdf, left } = sheet;
  const { widthPx, heightPx } = picture;
  const scale = Math.min(MARK_WIDTH_MOST / widthPx, MARK_HEIGHT_MOST / heightPx);
  const size = { width: widthPx * scale, height: heightPx * scale };
  const top = pdf.y;
  const bbox = [left, top, left + size.width, top + size.height];
  const draw = () => pdf.image(Buffer.from(picture.jpeg), left, top, size);
  sheet.element(sheet.root, "Figure", draw, { alt: sheet.shown(picture.alt), bbox });
  pdf.x = left;
  pdf.y = top + size.height + 8;
}

/** A QR code (ISO/IEC 18004) of an address, with what it is for beside it. */
export function drawAddressSquare(
  sheet: Sheet,
  { address, alt, lines }: Extract<Block, { kind: "address-square" }>,
): void {
  const { pdf } = sheet;
  sheet.needs(SQUARE + 12);
  const top = pdf.y;
  const { left } = sheet;
  const bbox = [left, top, left + SQUARE, top + SQUARE];
  const draw = () => drawModules(sheet, address, left, top);
  sheet.element(sheet.root, "Figure", draw, { alt: sheet.shown(alt), bbox });
  let y = top + 6;
  for (const line of lines) {
    sheet.element(sheet.root, "P", () => {
      const width = sheet.width - SQUARE - 12;
      sheet.type(PLAIN, 9).text(sheet.shown(line), left + SQUARE + 12, y, { width });
    });
    y = pdf.y + 3;
  }
  pdf.x = left;
  pdf.y = Math.max(top + SQUARE, y) + 8;
}

function drawModules({ pdf }: Sheet, address: string, x: number, y: number): void {
  const code = qrcode(0, "M");
  code.addData(address);
  code.make();
  const count = code.getModuleCount();
  const side = SQUARE / (count + 2 * QUIET);
  pdf.rect(x, y, SQUARE, SQUARE).fill("#ffffff");
  for (let row = 0; row < count; row += 1) {
    for (let column = 0; column < count; column += 1) {
      if (!code.isDark(row, column)) continue;
      pdf.rect(x + (column + QUIET) * side, y + (row + QUIET) * side, side, side);
    }
  }
  pdf.fill(INK);
}
