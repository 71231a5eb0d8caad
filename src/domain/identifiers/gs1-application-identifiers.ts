// Requirement: labels of packs and inverters carry GS1 element strings. Source: GS1 General
// Specifications section 3 (formats) and 7.8.5 (which need no separator), as also listed in the
// GS1 Barcode Syntax Dictionary. Only identifiers met on equipment and its packaging are listed;
// an unlisted one is refused, because without its length what follows cannot be read.

import { gs1Mod10 } from "./mod-10.ts";

/** Contents: digits; the 82 characters of figure 7.11-1; a date; digits ending in a check digit. */
type Content = "digits" | "text" | "date" | "checked";

interface ApplicationIdentifier {
  readonly ai: string;
  readonly title: string;
  readonly content: Content;
  readonly lengthMin: number;
  readonly lengthMax: number;
}

/** An application identifier with its value, such as { ai: "21", value: "SN42" }. */
export interface Gs1Element {
  readonly ai: string;
  readonly value: string;
}

export const GROUP_SEPARATOR = "\u001d";

function entry(
  ai: string,
  title: string,
  content: Content,
  lengthMax: number,
  lengthMin = lengthMax,
) {
  return { ai, title, content, lengthMin, lengthMax } satisfies ApplicationIdentifier;
}

function listed(): ApplicationIdentifier[] {
  const gln = ["410", "411", "412", "413", "414", "415", "416", "417"];
  const weight = ["310", "330"].flatMap((stem) => [0, 1, 2, 3, 4, 5].map((n) => `${stem}${n}`));
  return [
    entry("00", "SSCC", "checked", 18),
    entry("01", "GTIN", "checked", 14),
    entry("02", "GTIN of contained items", "checked", 14),
    entry("10", "batch or lot", "text", 20, 1),
    entry("11", "production date", "date", 6),
    entry("12", "due date", "date", 6),
    entry("13", "packaging date", "date", 6),
    entry("15", "best before date", "date", 6),
    entry("16", "sell by date", "date", 6),
    entry("17", "expiry date", "date", 6),
    entry("20", "variant", "digits", 2),
    entry("21", "serial", "text", 20, 1),
    entry("22", "consumer product variant", "text", 20, 1),
    entry("235", "third-party serial", "text", 28, 1),
    entry("240", "additional item identification", "text", 30, 1),
    entry("241", "customer part number", "text", 30, 1),
    entry("242", "made-to-order variant", "digits", 6, 1),
    entry("243", "packaging component", "text", 20, 1),
    entry("250", "secondary serial", "text", 30, 1),
    entry("251", "reference to source", "text", 30, 1),
    entry("254", "GLN extension", "text", 20, 1),
    entry("30", "variable count", "digits", 8, 1),
    entry("37", "count of items", "digits", 8, 1),
    entry("400", "order number", "text", 30, 1),
    entry("422", "country of origin", "digits", 3),
    entry("8004", "GIAI", "text", 30, 1),
    entry("8012", "software version", "text", 20, 1),
    ...gln.map((ai) => entry(ai, "GLN", "checked", 13)),
    ...weight.map((ai) => entry(ai, "weight in kg", "digits", 6)),
    entry("90", "agreed between partners", "text", 30, 1),
    ...[1, 2, 3, 4, 5, 6, 7, 8, 9].map((n) => entry(`9${n}`, "company internal", "text", 90, 1)),
  ];
}

const TABLE = new Map(listed().map((identifier) => [identifier.ai, identifier]));

/** First two digits after which the length is known, so that no separator follows (7.8.5). */
const PREDEFINED = new Set(
  "00 01 02 03 04 11 12 13 14 15 16 17 18 19 20 31 32 33 34 35 36 41".split(" "),
);
/** 82 characters, all the figure has. */
const TEXT = /^[!"%&'()*+,\-./0-9:;<=>?A-Z_a-z]+$/;

/** The identifier that starts a text at an index, or undefined when it is not in the table. */
export function identifierAt(text: string, index: number): ApplicationIdentifier | undefined {
  for (const length of [2, 3, 4]) {
    const found = TABLE.get(text.slice(index, index + length));
    if (found) return found;
  }
  return undefined;
}

/** Whether an identifier's value ends by its known length and takes no separator after it. */
export function isPredefinedLength(ai: string): boolean {
  return PREDEFINED.has(ai.slice(0, 2));
}

/** What is wrong with an element, in one sentence, or undefined when it is sound. */
export function elementProblem({ ai, value }: Gs1Element): string | undefined {
  const identifier = TABLE.get(ai);
  if (!identifier) return `(${ai}) is not an identifier this tool knows.`;
  const { lengthMin, lengthMax, content, title } = identifier;
  if (value.length < lengthMin || value.length > lengthMax) {
    const wanted = lengthMin === lengthMax ? `${lengthMax}` : `${lengthMin} to ${lengthMax}`;
    return `(${ai}) ${title} has ${value.length} characters where ${wanted} belong.`;
  }
  if (content === "text") {
    return TEXT.test(value) ? undefined : `(${ai}) ${title} has a character GS1 does not allow.`;
  }
  if (!/^\d+$/.test(value)) return `(${ai}) ${title} may have digits only.`;
  if (content === "checked" && gs1Mod10(value.slice(0, -1)) !== value.slice(-1)) {
    return `(${ai}) ${title} ${value} has a wrong check digit: scan it again.`;
  }
  const isBadDate = content === "date" && !isDate(value);
  return isBadDate ? `(${ai}) ${title} ${value} is no date (YYMMDD).` : undefined;
}

/** Month 01–12 and a day the month can have; day 00 means the month as a whole (3.4). */
function isDate(value: string): boolean {
  const month = Number(value.slice(2, 4));
  const isLeap = Number(value.slice(0, 2)) % 4 === 0;
  const days = [31, isLeap ? 29 : 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31][month - 1];
  return days !== undefined && Number(value.slice(4)) <= days;
}
