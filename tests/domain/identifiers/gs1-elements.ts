import fc from "fast-check";
import type { Gs1Element } from "../../../src/domain/identifiers/gs1-application-identifiers.ts";

/** The elements of a text such as "(01)09506000134352(21)SN42", values without parentheses. */
export function elementsOf(text: string): Gs1Element[] {
  return [...text.matchAll(/\((\d+)\)([^(]*)/g)].map(([, ai = "", value = ""]) => ({ ai, value }));
}

const text82 = fc
  .array(fc.constantFrom(..."!\"%&'()*+,-./0123456789:;<=>?ABCXYZ_abcxyz"), {
    minLength: 1,
    maxLength: 20,
  })
  .map((characters) => characters.join(""));
/** A GTIN, four texts of any of the 82 characters, and a date. */
export const elementSet = fc
  .record({ "10": text82, "21": text82, "22": text82, "240": text82 })
  .map((values): Gs1Element[] => [
    { ai: "01", value: "09506000134352" },
    ...Object.entries(values).map(([ai, value]) => ({ ai, value })),
    { ai: "17", value: "261231" },
  ]);
