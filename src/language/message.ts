// Requirement: the tablet's page says texts of the same catalogue as the server's pages and stays
// small enough for a cellar's signal, so it has no library of messages with it. This reads the part
// of ICU messages that the tablet's texts use; tests compare it with intl-messageformat.

export type PlainValues = Readonly<Record<string, string | number>>;

/**
 * {name}, {count, plural, =0 {…} one {…} other {# …}} and {kind, select, … other {…}}. Nothing is
 * quoted by apostrophes: one is itself.
 */
export function plainMessage(text: string, locale: string, values: PlainValues): string {
  return text.includes("{") ? filled(text, { locale, values }) : text;
}

interface Filling {
  locale: string;
  values: PlainValues;
  /** What "#" stands for inside a plural. */
  count?: string;
}

function filled(text: string, filling: Filling): string {
  let said = "";
  for (let at = 0; at < text.length; at += 1) {
    const sign = text[at];
    if (sign === "{") {
      const end = closing(text, at);
      said += argument(text.slice(at + 1, end), filling);
      at = end;
    } else said += sign === "#" ? (filling.count ?? sign) : sign;
  }
  return said;
}

/** Where the brace at `from` is closed. */
function closing(text: string, from: number): number {
  let depth = 0;
  for (let at = from; at < text.length; at += 1) {
    if (text[at] === "{") depth += 1;
    if (text[at] === "}") depth -= 1;
    if (depth === 0) return at;
  }
  throw new Error(`a brace is not closed in "${text}"`);
}

function argument(inside: string, filling: Filling): string {
  const [, name = "", kind, forms = ""] =
    /^\s*(\w+)\s*(?:,\s*(plural|select)\s*,([\s\S]*))?$/.exec(inside) ?? [];
  const value = filling.values[name] ?? "";
  if (kind === undefined) return String(value);
  const known = formsOf(forms);
  const { locale, values } = filling;
  if (kind === "select") return filled(known[value] ?? known.other ?? "", filling);
  const category = pluralRules(locale).select(Number(value));
  const form = known[`=${value}`] ?? known[category] ?? known.other ?? "";
  const count = new Intl.NumberFormat(locale).format(Number(value));
  return filled(form, { locale, values, count });
}

function formsOf(text: string): Readonly<Record<string, string>> {
  const forms: Record<string, string> = {};
  const opening = /\s*(=?[\w-]+)\s*\{/y;
  for (let match = opening.exec(text); match; match = opening.exec(text)) {
    const from = opening.lastIndex;
    const end = closing(text, from - 1);
    forms[`${match[1]}`] = text.slice(from, end);
    opening.lastIndex = end + 1;
  }
  return forms;
}

const rules = new Map<string, Intl.PluralRules>();

function pluralRules(locale: string): Intl.PluralRules {
  const known = rules.get(locale) ?? new Intl.PluralRules(locale);
  rules.set(locale, known);
  return known;
}
