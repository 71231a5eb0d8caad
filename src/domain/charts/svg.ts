// Requirement: a chart is text that needs no script: names are escaped, colours are the page's own
// and never the only difference, and what is drawn stands in a table beside it.

/** Text inside SVG elements and attributes (XML 1.0 section 2.4). */
export const escaped = (text: string): string =>
  text
    .replaceAll("&", "&amp;")
    .replaceAll("<", "&lt;")
    .replaceAll(">", "&gt;")
    .replaceAll('"', "&quot;");

/** Two decimals are finer than any screen. */
export const at = (value: number): string => String(Math.round(value * 100) / 100);

/** Lines are told apart by their dashes as well as by their colour. */
export const STROKES = [
  { colour: "var(--chart-1, #0f5f5b)", dash: "" },
  { colour: "var(--chart-2, #b35a00)", dash: "7 4" },
  { colour: "var(--chart-3, #4b4bb8)", dash: "2 3" },
  { colour: "var(--chart-4, #8a2c5a)", dash: "10 3 2 3" },
  { colour: "var(--chart-5, #5c6b1e)", dash: "4 2 1 2" },
  { colour: "var(--chart-6, #6b6b6b)", dash: "1 2" },
] as const;

/**
 * A drawing that scales with the page; its title is for those who do not see it. With links in it,
 * it is no picture but a group of them (WAI-ARIA 1.2: the children of img are presentational).
 */
export const drawing = (
  width: number,
  height: number,
  title: string,
  parts: readonly string[],
): string =>
  `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${width} ${height}" ` +
  `role="${parts.some((part) => part.startsWith("<a ")) ? "group" : "img"}" ` +
  `aria-label="${escaped(title)}" font-size="12" fill="currentColor">${parts.join("")}</svg>`;
