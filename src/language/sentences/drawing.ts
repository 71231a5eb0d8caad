import type { ShownLanguage } from "../languages.ts";
import { retell } from "./retell.ts";

const ESCAPES: Readonly<Record<string, string>> = {
  "&": "&amp;",
  "<": "&lt;",
  ">": "&gt;",
  '"': "&quot;",
};

/** A drawing (SVG that the service made) with its texts in the language. */
export const retellDrawing = (language: ShownLanguage, svg: string): string =>
  language === "en"
    ? svg
    : svg.replace(/>([^<>]*\p{L}[^<>]*)</gu, (_all, text: string) => {
        const told = retell(language, plain(text));
        return `>${told.replace(/[&<>"]/g, (sign) => ESCAPES[sign] ?? sign)}<`;
      });

const plain = (text: string): string =>
  Object.entries(ESCAPES).reduceRight(
    (left, [sign, escaped]) => left.replaceAll(escaped, sign),
    text,
  );
