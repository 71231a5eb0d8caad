// A sentence with places for values: "Read {typed}; the job has {expected:said}." What stands in a
// place is left alone, since people may have typed it, unless the place says otherwise: `said` is
// told by other templates in turn, `word` is one of the words of the trade, `term` one of them or
// one that a firm named itself, `options` are what a plan offers, "A or B", and a
// `figure` is a number with its unit or a serial number: no words.

export type Manner = "as-is" | "said" | "word" | "term" | "options" | "figure";

export interface Place {
  name: string;
  manner: Manner;
}

export interface Template {
  /** One more than places; only the first and the last may be empty. */
  literals: readonly string[];
  places: readonly Place[];
}

const PLACE = /\{([a-zA-Z]+)(?::(said|word|term|options|figure))?\}/;

/**
 * Reads a template.
 * @throws SyntaxError where two places touch, so that nobody could tell where one ends
 */
export function readTemplate(text: string): Template {
  const pieces = text.split(PLACE);
  const literals = pieces.filter((_piece, index) => index % 3 === 0) as string[];
  const places = literals.slice(1).map((_literal, index) => ({
    name: String(pieces[index * 3 + 1]),
    manner: (pieces[index * 3 + 2] ?? "as-is") as Manner,
  }));
  if (literals.slice(1, -1).includes("")) throw new SyntaxError(`places touch in "${text}"`);
  return { literals, places };
}

/** The template's text with a value in each place, by name. */
export function fillTemplate(
  { literals, places }: Template,
  valueBy: (name: string) => string,
): string {
  return literals
    .map((text, at) => (at === 0 ? text : valueBy(places[at - 1]?.name ?? "") + text))
    .join("");
}

/** How many ways of one text are looked at: more than a sentence has, and never many. */
const WAYS_MOST = 8;
const LOOKS_MOST = 64;

/**
 * The values with which the template gives the text, in order of its places, in every way but at
 * most eight: where a value holds words of the template, the reader judges by what is in it.
 */
export function valuesIn({ literals }: Template, text: string): string[][] {
  const first = literals[0] ?? "";
  const last = literals.at(-1) ?? "";
  if (literals.length === 1) return text === first ? [[]] : [];
  if (text.length < first.length + last.length) return [];
  if (!text.startsWith(first) || !text.endsWith(last)) return [];
  const end = text.length - last.length;
  const ways: string[][] = [];
  let looks = 0;
  const look = (at: number, from: number, values: readonly string[]): void => {
    const before = literals[at - 1] ?? "";
    if (at === literals.length - 1) {
      const value = text.slice(from, end);
      if (isValue(value, before)) ways.push([...values, value]);
      return;
    }
    const literal = literals[at] ?? "";
    let found = text.indexOf(literal, from + 1);
    while (found !== -1 && found + literal.length <= end && ways.length < WAYS_MOST) {
      looks += 1;
      if (looks > LOOKS_MOST) return;
      const value = text.slice(from, found);
      if (isValue(value, before)) look(at + 1, found + literal.length, [...values, value]);
      found = text.indexOf(literal, found + 1);
    }
  };
  look(1, first.length, []);
  return ways;
}

/** A quotation is not cut in two: outside of one, quotation marks come in pairs. */
const isValue = (value: string, before: string): boolean =>
  value !== "" && (before.endsWith('"') || value.split('"').length % 2 === 1);
