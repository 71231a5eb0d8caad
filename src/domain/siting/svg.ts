// Drawings are SVG text written by hand-sized pieces. Every name in them comes from people, so text
// enters only through `textElement` and attributes only through `element`, which escape.
// Colours are presentation attributes over `currentColor` and CSS variables with fallbacks: they
// follow light and dark, and need no inline style that a content security policy would refuse.

export const INK = "currentColor";
export const PAPER = "var(--drawing-paper, Canvas)";
export const BREACH = "var(--drawing-breach, currentColor)";

export type Attributes = Record<string, string | number | undefined>;

/** Escapes for XML 1.0 text and attributes; characters that XML forbids become U+FFFD. */
export function escapeXml(text: string): string {
  return (
    text
      .toWellFormed()
      // biome-ignore lint/suspicious/noControlCharactersInRegex: they are what XML forbids
      .replaceAll(/[\u0000-\u0008\u000b\u000c\u000e-\u001f\ufffe\uffff]/g, "\ufffd")
      .replaceAll("&", "&amp;")
      .replaceAll("<", "&lt;")
      .replaceAll(">", "&gt;")
      .replaceAll('"', "&quot;")
      .replaceAll("'", "&#39;")
  );
}

/** One element; `children` are finished SVG, attribute values are escaped here. */
export function element(name: string, attributes: Attributes, ...children: string[]): string {
  const written = Object.entries(attributes)
    .filter((entry): entry is [string, string | number] => entry[1] !== undefined)
    .map(([key, value]) => ` ${key}="${escapeXml(plain(value))}"`)
    .join("");
  const inside = children.join("");
  return inside === "" ? `<${name}${written}/>` : `<${name}${written}>${inside}</${name}>`;
}

/** A line of text, escaped; `halo` keeps it readable where it crosses lines. */
export function textElement(
  x: number,
  y: number,
  text: string,
  attributes: Attributes = {},
): string {
  const base = { x, y, "font-size": 14, fill: INK, ...attributes };
  return element("text", base, escapeXml(text));
}

export const HALO: Attributes = {
  "paint-order": "stroke",
  stroke: PAPER,
  "stroke-width": 4,
  "stroke-linejoin": "round",
};

export interface DrawingFrame {
  width: number;
  height: number;
  /** Short name, read first by a screen reader. */
  title: string;
  /** What the drawing shows, for those who do not see it. */
  description: string;
  /** Keeps ids unique where a page shows several drawings. */
  idPrefix: string;
}

/** The outer element with title and description wired up for screen readers. */
export function svgDocument(frame: DrawingFrame, ...children: string[]): string {
  const prefix = safeId(frame.idPrefix);
  const attributes = {
    xmlns: "http://www.w3.org/2000/svg",
    viewBox: `0 0 ${plain(frame.width)} ${plain(frame.height)}`,
    width: frame.width,
    height: frame.height,
    role: "img",
    "aria-labelledby": `${prefix}-title ${prefix}-description`,
    "font-family": "system-ui, sans-serif",
    fill: "none",
    stroke: "none",
  };
  return element(
    "svg",
    attributes,
    element("title", { id: `${prefix}-title` }, escapeXml(frame.title)),
    element("desc", { id: `${prefix}-description` }, escapeXml(frame.description)),
    ...children,
  );
}

/** Letters, digits and hyphens only, so that it may stand in an id or a `url(#…)`. */
export function safeId(text: string): string {
  return text.replaceAll(/[^A-Za-z0-9-]/g, "-").replace(/^(?![A-Za-z])/, "d");
}

/** Breaks text into lines at spaces; a word longer than a line is cut. */
export function wrapText(text: string, lineLength: number): string[] {
  const lines: string[] = [];
  let line = "";
  for (const word of text.split(/\s+/).flatMap((long) => chunks(long, lineLength))) {
    const longer = line === "" ? word : `${line} ${word}`;
    if (longer.length > lineLength && line !== "") {
      lines.push(line);
      line = word;
    } else {
      line = longer;
    }
  }
  return line === "" ? lines : [...lines, line];
}

/** On each line that goes on with the sentence of the one above it. */
const CONTINUES: Attributes = { "data-continues": "true" };

/** A text over several lines, its first at `y`. */
export function textLines(x: number, y: number, lines: readonly string[], step: number): string[] {
  return lines.map((line, at) => textElement(x, y + at * step, line, at === 0 ? {} : CONTINUES));
}

/** Shortens to a length, with an ellipsis. */
export function shorten(text: string, length: number): string {
  const letters = [...text];
  return letters.length <= length ? text : `${letters.slice(0, Math.max(1, length - 1)).join("")}…`;
}

function chunks(word: string, length: number): string[] {
  const letters = [...word];
  const count = Math.max(1, Math.ceil(letters.length / length));
  return Array.from({ length: count }, (_, at) =>
    letters.slice(at * length, (at + 1) * length).join(""),
  );
}

/** Two decimals: finer than a screen shows, and drawings stay short. */
export function drawn(value: number): number {
  return Math.round(value * 100) / 100;
}

function plain(value: string | number): string {
  return typeof value === "number" ? String(drawn(value)) : value;
}
