// Requirement: a QR code on a pack may hold a GS1 Digital Link URI instead of an element string.
// Source: GS1 Digital Link Standard, URI Syntax (1.2 and later): the rightmost primary key in
// the path, then its qualifiers in fixed order (22, 10, 21 for a GTIN), then attributes as query
// parameters; grammar as published in its ABNF.

import { elementProblem, type Gs1Element } from "./gs1-application-identifiers.ts";
import { percentDecode, percentEncode } from "./percent-encoding.ts";

export interface DigitalLink {
  /** What precedes the primary key: "https://id.gs1.org" or "https://example.com/some/path". */
  readonly stem: string;
  /** Primary key and its qualifiers, in path order. */
  readonly path: readonly Gs1Element[];
  /** Query parameters whose name is an application identifier. */
  readonly attributes: readonly Gs1Element[];
}

export type DigitalLinkReading = ({ ok: true } & DigitalLink) | { ok: false; problem: string };

type Refusal = { ok: false; problem: string };
type Elements = { ok: true; elements: Gs1Element[] } | Refusal;

const LENGTH_LIMIT = 2048;
export const CANONICAL_STEM = "https://id.gs1.org";

/** Primary keys with the qualifier sequences each may have, in order. */
const QUALIFIERS: Readonly<Record<string, readonly (readonly string[])[]>> = {
  "00": [[]],
  "01": [["22", "10", "21"], ["235"]],
  "414": [["254"]],
  "417": [[]],
  "8004": [[]],
};

/**
 * Reads a Digital Link URI. A GTIN of 8, 12 or 13 digits is given back with 14 (grammar 1.2).
 * Parameters with other names are dropped, as is a fragment. Refused: no primary key, wrong
 * order, unknown numeric parameters, an identifier twice, and unsound values.
 */
export function parseDigitalLink(uri: string): DigitalLinkReading {
  if (uri.length > LENGTH_LIMIT) return refuse("The address is too long for a label.");
  const parts = /^(https?:\/\/[^/?#\s]+)([^?#\s]*)(?:\?([^#\s]*))?(?:#\S*)?$/i.exec(uri.trim());
  if (!parts) return refuse("This is not a web address.");
  const [, origin = "", path = "", query = ""] = parts;
  const segments = path.split("/").slice(1);
  const keyAt = rightmostKey(segments);
  if (keyAt === undefined)
    return refuse("This web address holds no GS1 key, such as /01/ and a GTIN.");
  const read = readPath(segments.slice(keyAt));
  if (!read.ok) return read;
  const attributes = readQuery(query);
  if (!attributes.ok) return attributes;
  const problem = misplaced(read.elements, attributes.elements);
  if (problem) return refuse(problem);
  const stem = [origin, ...segments.slice(0, keyAt)].join("/");
  return { ok: true, stem, path: read.elements, attributes: attributes.elements };
}

/**
 * Writes the URI of a set of elements in any order: key, qualifiers in order, and the rest as
 * query parameters sorted by identifier. Refused: no key, an identifier twice, unsound values.
 */
export function buildDigitalLink(
  elements: readonly Gs1Element[],
  stem: string = CANONICAL_STEM,
): { ok: true; uri: string } | Refusal {
  const problem = elements.map(elementProblem).find((found) => found !== undefined);
  if (problem) return refuse(problem);
  const values = new Map(elements.map(({ ai, value }) => [ai, value]));
  if (values.size !== elements.length) return refuse("An identifier comes twice.");
  const key = elements.find(({ ai }) => Object.hasOwn(QUALIFIERS, ai))?.ai;
  if (!key) return refuse("A Digital Link needs a key, such as (01) and a GTIN.");
  const sequences = (QUALIFIERS[key] ?? []).map((order) => order.filter((ai) => values.has(ai)));
  const longest = sequences.reduce((a, b) => (b.length > a.length ? b : a), []);
  const inPath = [key, ...longest];
  const encoded = (ai: string) => percentEncode(values.get(ai) ?? "");
  const path = inPath.map((ai) => `/${ai}/${encoded(ai)}`).join("");
  const rest = [...values.keys()].filter((ai) => !inPath.includes(ai)).sort();
  const query = rest.map((ai) => `${ai}=${encoded(ai)}`).join("&");
  const uri = `${stem.replace(/\/$/, "")}${path}${query === "" ? "" : `?${query}`}`;
  return { ok: true, uri };
}

/** Index of the last segment that is a primary key with an even rest of pairs after it. */
function rightmostKey(segments: readonly string[]): number | undefined {
  for (let at = segments.length - 2; at >= 0; at -= 2) {
    if (Object.hasOwn(QUALIFIERS, segments[at] ?? "")) return at;
  }
  return undefined;
}

function readPath(segments: readonly string[]): Elements {
  const elements: Gs1Element[] = [];
  for (let at = 0; at < segments.length; at += 2) {
    const ai = segments[at] ?? "";
    const read = readElement(ai, percentDecode(segments[at + 1] ?? "", false));
    if (!read.ok) return read;
    elements.push(...read.elements);
  }
  const [key, ...qualifiers] = elements.map(({ ai }) => ai);
  const orders = QUALIFIERS[key ?? ""] ?? [];
  if (orders.some((order) => isInOrder(qualifiers, order))) return { ok: true, elements };
  return refuse(`(${qualifiers.join("), (")}) cannot follow (${key}) in this order.`);
}

function readQuery(query: string): Elements {
  const elements: Gs1Element[] = [];
  for (const parameter of query.split("&")) {
    const [ai = "", ...value] = parameter.split("=");
    if (!/^\d+$/.test(ai) || !parameter.includes("=")) continue;
    const read = readElement(ai, percentDecode(value.join("="), true));
    if (!read.ok) return read;
    elements.push(...read.elements);
  }
  return { ok: true, elements };
}

function readElement(ai: string, decoded: string | undefined): Elements {
  if (decoded === undefined)
    return refuse(`(${ai}) has a % that is not followed by two hex digits.`);
  const isShortGtin = ai === "01" && /^(?:\d{8}|\d{12,13})$/.test(decoded);
  const element = { ai, value: isShortGtin ? decoded.padStart(14, "0") : decoded };
  const problem = elementProblem(element);
  return problem ? refuse(problem) : { ok: true, elements: [element] };
}

function misplaced(
  path: readonly Gs1Element[],
  attributes: readonly Gs1Element[],
): string | undefined {
  const seen = new Set(path.map(({ ai }) => ai));
  const key = path[0]?.ai ?? "";
  for (const { ai } of attributes) {
    if (seen.has(ai)) return `(${ai}) comes twice.`;
    seen.add(ai);
  }
  const used = path.slice(1).map(({ ai }) => ai);
  const orders = (QUALIFIERS[key] ?? []).filter((order) => isInOrder(used, order));
  const stray = attributes.find(({ ai }) => orders.some((order) => order.includes(ai)));
  return stray && `(${stray.ai}) belongs in the path after (${key}), not after the question mark.`;
}

function isInOrder(used: readonly string[], order: readonly string[]): boolean {
  const kept = order.filter((ai) => used.includes(ai));
  return kept.length === used.length && kept.every((ai, index) => ai === used[index]);
}

function refuse(problem: string): Refusal {
  return { ok: false, problem };
}
