// Sentences are made in English where something is judged or refused, and are kept, hashed and sent
// so. A page says them in the reader's language: it finds the template that a sentence was made
// from and fills the template's translation with the same values. What no template gives stays as
// it is.
import { bestParts, piecesOf } from "./pieces.ts";
import { fillTemplate, type Manner, readTemplate, type Template, valuesIn } from "./template.ts";

export interface Told {
  text: string;
  /** How many letters of the text were told by templates. */
  told: number;
  /** Parts that should have been told and that no template gives. */
  untold: readonly string[];
}

interface Pair {
  from: Template;
  to: Template;
  letters: number;
  /** Words may stand in a place, so that a text may have this form by chance: "Do {title}". */
  isOpen: boolean;
}

/** Longer texts than any sentence are somebody's own. */
const LENGTH_MOST = 4000;
const DEPTH_MOST = 8;
const LETTERS_LEAST = 8;
/** "Chosen: {choice}." */
const LABELLED = /^\p{Lu}\p{L}+: /u;

/** Says sentences made of known templates in another language. */
export class Reteller {
  readonly #exact = new Map<string, string>();
  readonly #byFirst = new Map<string, Pair[]>();
  readonly #words: ReadonlyMap<string, string>;
  readonly #known = new Map<string, Told>();

  /**
   * @param sentences translations by English template
   * @param words translations of the words of the trade that stand in places
   */
  constructor(
    sentences: Readonly<Record<string, string>>,
    words: Readonly<Record<string, string>>,
  ) {
    this.#words = new Map(Object.entries(words));
    for (const [english, other] of Object.entries(sentences)) this.#add(english, other);
  }

  /** The text with what is known of it told, the rest as it is. */
  tell(text: string): Told {
    if (text.length > LENGTH_MOST) return untold(text);
    const known = this.#known.get(text);
    if (known) return known;
    const told = this.#tell(text, 0);
    if (this.#known.size >= KNOWN_MOST) this.#known.clear();
    this.#known.set(text, told);
    return told;
  }

  #add(english: string, other: string): void {
    const from = readTemplate(english);
    if (from.places.length === 0) {
      this.#exact.set(english, other);
      return;
    }
    const first = from.literals[0]?.charAt(0) ?? "";
    const own = letters(from.literals.join(""));
    const isOpen =
      !LABELLED.test(english) &&
      from.places.some(({ manner }) => manner !== "figure" && manner !== "word");
    const pair = { from, to: readTemplate(other), letters: own, isOpen };
    const pairs = this.#byFirst.get(first);
    if (pairs) pairs.push(pair);
    else this.#byFirst.set(first, [pair]);
  }

  #tell(text: string, depth: number): Told {
    if (depth > DEPTH_MOST) return untold(text);
    const pieces = piecesOf(text);
    const parts = bestParts(
      pieces,
      (part) => ({ part, ...this.#part(part, depth) }),
      ({ told }) => told,
    );
    let rest = text;
    let said = "";
    for (const { part, text: toldText } of parts) {
      const at = rest.indexOf(part);
      said += rest.slice(0, at) + toldText;
      rest = rest.slice(at + part.length);
    }
    return {
      text: said + rest,
      told: parts.reduce((sum, { told }) => sum + told, 0),
      untold: parts.flatMap(({ untold: left }) => left),
    };
  }

  /** A part that ends with a full stop may be a list of what is told without one. */
  #part(text: string, depth: number): Told {
    const whole = this.#match(text, depth);
    if (whole || !text.endsWith(".")) return whole ?? untold(text);
    const bare = this.#match(text.slice(0, -1), depth);
    return bare ? { ...bare, text: `${bare.text}.` } : untold(text);
  }

  #match(text: string, depth: number): Told | undefined {
    const exact = this.#exact.get(text);
    if (exact !== undefined) return { text: exact, told: letters(text), untold: [] };
    let best: Told | undefined;
    for (const first of [text.charAt(0), ""]) {
      for (const pair of this.#byFirst.get(first) ?? []) {
        for (const values of valuesIn(pair.from, text)) {
          const told = this.#fill(pair, values, depth);
          if (!told || (depth === 0 && pair.isOpen && told.told < LETTERS_LEAST)) continue;
          if (!best || told.told > best.told) best = told;
        }
      }
    }
    return best;
  }

  /** Undefined where a word is none of the trade's, so that the text is no such sentence. */
  #fill({ from, to, letters: own }: Pair, values: readonly string[], depth: number) {
    const parts = new Map<string, Told>();
    for (const [index, { name, manner }] of from.places.entries()) {
      const told = this.#value(manner, values[index] ?? "", depth);
      if (!told) return undefined;
      parts.set(name, told);
    }
    const all = [...parts.values()];
    return {
      text: fillTemplate(to, (name) => parts.get(name)?.text ?? ""),
      told: all.reduce((sum, { told }) => sum + told, own),
      untold: all.flatMap(({ untold: left }) => left),
    };
  }

  #options(value: string): string {
    return value.split(BETWEEN_OPTIONS).join(this.#words.get(" or ") ?? " or ");
  }

  #value(manner: Manner, value: string, depth: number): Told | undefined {
    if (manner === "said") return this.#tell(value, depth + 1);
    if (manner === "options") return { text: this.#options(value), told: 0, untold: [] };
    if (manner === "figure" && !FIGURE.test(value)) return undefined;
    if (manner === "as-is" || manner === "figure") return { text: value, told: 0, untold: [] };
    const pieces = value.split(/(, | and | or )/);
    const known = pieces.filter((piece, index) => index % 2 === 0 && this.#words.has(piece)).length;
    if (known === (pieces.length + 1) / 2) {
      const text = pieces.map((piece) => this.#words.get(piece) ?? piece).join("");
      return { text, told: letters(value), untold: [] };
    }
    return manner === "term" ? { text: value, told: 0, untold: [] } : undefined;
  }
}

const KNOWN_MOST = 5000;
const FIGURE = /^(?:\S+|[<>]?[−-]?\d.*)$/;

/** Options begin with a capital or a digit; an "or" before anything else stands inside of one. */
const BETWEEN_OPTIONS = / or (?=[\p{Lu}\d"])/u;

const untold = (text: string): Told => ({ text, told: 0, untold: [text] });

const letters = (text: string): number => text.match(/\p{L}/gu)?.length ?? 0;
