// One PDF in the making: PDF/A-2a (ISO 19005-2), tagged, fonts within, nothing in it that differs
// from one making to the next.
import { createRequire } from "node:module";
import PDFDocument from "pdfkit";
import type { Paper } from "./block.ts";
import { escapeMetadata, writable } from "./metadata.ts";

const fonts = createRequire(import.meta.url);
const font = (weight: string): string =>
  fonts.resolve(`@expo-google-fonts/source-sans-3/${weight}/SourceSans3_${weight}.ttf`);

export const PLAIN = "plain";
export const STRONG = "strong";
export const INK = "#1b1f24";
export const FAINT = "#5a626b";
export const RULE = "#c9ced4";
export const SHADE = "#eef1f4";
export const ALERT = "#9a3412";

const MARGIN = { top: 64, bottom: 60, left: 50, right: 50 } as const;
const SIZES = { a4: "A4", letter: "LETTER" } as const;

export type Pdf = PDFKit.PDFDocument;
export type Element = PDFKit.PDFStructureElement;

export class Sheet {
  readonly pdf: Pdf;
  readonly root: Element;
  /** How many signs the font has no shape for. */
  unprintable = 0;
  readonly #shapes = new Map<string, boolean>([["\n", true]]);

  constructor({ title, language, size, at, author, draft }: Paper) {
    this.pdf = new PDFDocument({
      ...{ size: SIZES[size], margins: MARGIN, autoFirstPage: false, bufferPages: true },
      ...{ pdfVersion: "1.7", subset: "PDF/A-2a", tagged: true, lang: language },
      displayTitle: true,
      font: font("400Regular"),
      info: {
        ...{ Title: writable(title), Author: writable(author) },
        ...{ Creator: "Holdpoint", Producer: "Holdpoint" },
        CreationDate: new Date(at),
        ModDate: new Date(at),
      },
    });
    escapeMetadata(this.pdf);
    this.pdf.registerFont(PLAIN, font("400Regular"));
    this.pdf.registerFont(STRONG, font("600SemiBold"));
    this.root = this.pdf.struct("Document");
    this.pdf.addStructure(this.root);
    if (draft) this.pdf.on("pageAdded", () => this.#markDraft(draft));
    this.pdf.addPage();
  }

  get left(): number {
    return MARGIN.left;
  }

  get width(): number {
    return this.pdf.page.width - MARGIN.left - MARGIN.right;
  }

  get bottom(): number {
    return this.pdf.page.height - MARGIN.bottom;
  }

  /** Height that a fresh page offers. */
  get fullHeight(): number {
    return this.bottom - MARGIN.top;
  }

  /** Goes on to the next page where so much no longer fits. */
  needs(height: number): boolean {
    if (this.pdf.y + Math.min(height, this.fullHeight) <= this.bottom) return false;
    this.pdf.addPage();
    return true;
  }

  type(name: string, size: number, colour: string = INK): Pdf {
    return this.pdf.font(name).fontSize(size).fillColor(colour);
  }

  /** An element of the tree with what is drawn into it. */
  element(parent: Element, type: string, draw?: () => void, options: object = {}): Element {
    const own = this.pdf.struct(type as never, options, draw ? [draw] : undefined);
    parent.add(own);
    return own;
  }

  /** What is for the eye alone, outside the tree. */
  artifact(draw: () => void, type: "Layout" | "Pagination" = "Layout"): void {
    this.pdf.markContent("Artifact", { type });
    draw();
    this.pdf.endMarkedContent();
  }

  /** Across the page, under what is written on it afterwards. */
  #markDraft(text: string): void {
    const { pdf } = this;
    const type = pdf as unknown as Type;
    const { _font, _fontSize } = type;
    const { x, y } = pdf;
    const { width, height } = pdf.page;
    this.artifact(() => {
      pdf.save().rotate(-52, { origin: [width / 2, height / 2] });
      this.type(STRONG, 46, "#e6e9ed");
      pdf.text(text, 0, height / 2 - 24, { width, align: "center", lineBreak: false });
      pdf.restore();
    }, "Pagination");
    Object.assign(type, { _font, _fontSize });
    Object.assign(pdf, { x, y });
  }

  /** The text with "?" for signs that the font cannot show; accents as single signs. */
  shown(text: string): string {
    const known = (this.pdf as unknown as Type)._font.font;
    let out = "";
    for (const sign of text.normalize("NFC").replaceAll(/[\t\r]+/g, " ")) {
      const isShown =
        this.#shapes.get(sign) ?? known.hasGlyphForCodePoint(sign.codePointAt(0) ?? 0);
      this.#shapes.set(sign, isShown);
      if (!isShown) this.unprintable += 1;
      out += isShown ? sign : "?";
    }
    return out;
  }
}

/** The type in hand, as pdfkit keeps it: a page that begins within a text leaves it alone. */
interface Type {
  _font: { font: Glyphs };
  _fontSize: number;
}

interface Glyphs {
  hasGlyphForCodePoint(codePoint: number): boolean;
}
