// How limits and lists of a plan's item stand in the fields of a form, and how they are read back.

/** A figure as it is, an expression behind an equals sign: "4.4", "=model.earthTorqueNm". */
export function boundText(bound: unknown): string {
  if (typeof bound === "number") return String(bound);
  if (typeof bound === "string") return bound;
  if (typeof bound === "object" && bound !== null && "cel" in bound) return `=${bound.cel}`;
  return "";
}

/** What is neither a figure nor an expression stays a text, for the plan's check to point at. */
export function readBound(text: string): number | string | { cel: string } | undefined {
  const trimmed = text.trim();
  if (trimmed === "") return undefined;
  if (trimmed.startsWith("=")) return { cel: trimmed.slice(1).trim() };
  const figure = trimmed.replace(",", ".");
  return /^[-+]?(\d+\.?\d*|\.\d+)(e[-+]?\d+)?$/i.test(figure) ? Number(figure) : trimmed;
}

export const linesOf = (text: string): string[] =>
  text
    .split(/\r?\n/)
    .map((line) => line.trim())
    .filter((line) => line !== "");

/** "name = value" lines; a line without an equals sign has an empty value. */
export function pairsOf(text: string, separator = "="): [string, string][] {
  return linesOf(text).map((line) => {
    const at = line.indexOf(separator);
    return at < 0 ? [line, ""] : [line.slice(0, at).trim(), line.slice(at + 1).trim()];
  });
}

export const wholeNumber = (text: string): number | string | undefined => {
  const trimmed = text.trim();
  if (trimmed === "") return undefined;
  return /^-?\d+$/.test(trimmed) ? Number(trimmed) : trimmed;
};
