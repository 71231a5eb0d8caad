import type { ShownLanguage } from "../languages.ts";
import { retell } from "./retell.ts";

const ESCAPES: Readonly<Record<string, string>> = {
  "&": "&amp;",
  "<": "&lt;",
  ">": "&gt;",
  '"': "&quot;",
  "'": "&#39;",
};
/** A sentence over several lines (src/domain/siting/svg.ts), or a text by itself. */
const CONTINUED = /<text[^<>]* data-continues="true"[^<>]*>[^<>]*<\/text>/.source;
const TEXTS = new RegExp(`<text[^<>]*>[^<>]*</text>(?:${CONTINUED})+|>([^<>]*\\p{L}[^<>]*)<`, "gu");
const LINE = /(<text[^<>]*>)([^<>]*)<\/text>/gu;

/** A drawing (SVG that the service made) with its texts in the language. */
export const retellDrawing = (language: ShownLanguage, svg: string): string =>
  language === "en"
    ? svg
    : svg.replace(TEXTS, (all, text: string | undefined) =>
        text === undefined
          ? retellLines(language, all)
          : `>${escaped(retell(language, plain(text)))}<`,
      );

/** The sentence as a whole, over as many lines as it had. */
function retellLines(language: ShownLanguage, lines: string): string {
  const found = [...lines.matchAll(LINE)];
  const told = retell(language, found.map(([, , text = ""]) => plain(text)).join(" "));
  let letters = Math.ceil(told.length / found.length);
  while (linesOf(told, letters).length > found.length) letters += 1;
  const wrapped = linesOf(told, letters);
  return found.map(([, tag = ""], at) => `${tag}${escaped(wrapped[at] ?? "")}</text>`).join("");
}

/** Broken between words into lines of so many letters, but for a word that is longer. */
function linesOf(text: string, letters: number): string[] {
  const lines: string[] = [];
  for (const word of text.split(" ")) {
    const last = lines.at(-1);
    const fits = last !== undefined && last.length + 1 + word.length <= letters;
    if (fits) lines[lines.length - 1] = `${last} ${word}`;
    else lines.push(word);
  }
  return lines;
}

const escaped = (text: string): string => text.replace(/[&<>"']/g, (sign) => ESCAPES[sign] ?? sign);
const plain = (text: string): string =>
  Object.entries(ESCAPES).reduceRight(
    (left, [sign, entity]) => left.replaceAll(entity, sign),
    text,
  );
