// Requirement: what is sealed reads the same for ever and everywhere. Source: RFC 8785, JSON
// Canonicalization Scheme: no spaces, member names by UTF-16 code units (3.2.3), strings and
// numbers as ECMAScript writes them (3.2.2), and only what JSON can carry.

/** Containers inside one another at most, the outermost counted; RFC 8785 sets none. */
export const CANONICAL_DEPTH_MAX = 64;

export type Canonical = { ok: true; text: string } | { ok: false; problem: string };

/**
 * The canonical text of a JSON value (RFC 8785). Refuses, with the JSON Pointer of the place: NaN
 * and infinities, lone surrogates, undefined (holes too), bigint, functions, symbols, objects other
 * than plain ones, cycles, and more than `depthMax` containers inside one another.
 */
export function tryCanonicalize(value: unknown, depthMax = CANONICAL_DEPTH_MAX): Canonical {
  try {
    return { ok: true, text: write(value, { pointer: "", open: [], depthMax }) };
  } catch (refusal) {
    if (!(refusal instanceof NotCanonical)) throw refusal;
    return { ok: false, problem: refusal.message };
  }
}

/**
 * As `tryCanonicalize`, for values that the program made itself: a refusal is a bug and is thrown
 * as a TypeError with the same sentence.
 */
export function canonicalize(value: unknown): string {
  const canonical = tryCanonicalize(value);
  if (!canonical.ok) throw new TypeError(canonical.problem);
  return canonical.text;
}

/** The value of a text that is JSON and already the canonical text of its value (RFC 8785). */
export function parseCanonical(text: string): { ok: true; value: unknown } | { ok: false } {
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch (error) {
    if (error instanceof SyntaxError) return { ok: false };
    throw error;
  }
  const canonical = tryCanonicalize(value);
  return canonical.ok && canonical.text === text ? { ok: true, value } : { ok: false };
}

type Place = { pointer: string; open: readonly object[]; depthMax: number };

class NotCanonical extends Error {}

function write(value: unknown, place: Place): string {
  if (value === null || typeof value === "boolean") return String(value);
  if (typeof value === "string") return writeString(value, place);
  if (typeof value === "number") return writeNumber(value, place);
  if (typeof value !== "object") return refuse(`${typeof value} is no JSON value`, place);
  if (place.open.includes(value)) return refuse("the value contains itself", place);
  if (place.open.length >= place.depthMax) {
    return refuse(`more than ${place.depthMax} levels deep`, place);
  }
  const inside = { ...place, open: [...place.open, value] };
  return Array.isArray(value) ? writeArray(value, inside) : writeObject(value, inside);
}

function writeString(value: string, place: Place): string {
  if (!value.isWellFormed()) return refuse("text holds half a character (a lone surrogate)", place);
  return JSON.stringify(value);
}

function writeNumber(value: number, place: Place): string {
  if (!Number.isFinite(value)) return refuse(`${value} is no JSON number`, place);
  return JSON.stringify(value);
}

function writeArray(values: readonly unknown[], place: Place): string {
  const written: string[] = [];
  // By index, because the array's own iteration methods pass over holes.
  for (let index = 0; index < values.length; index += 1) {
    written.push(write(values[index], under(place, String(index))));
  }
  return `[${written.join(",")}]`;
}

function writeObject(value: object, place: Place): string {
  if (!isPlain(value)) return refuse("only plain objects and arrays are JSON values", place);
  const members = Object.entries(value).sort(([a], [b]) => (a < b ? -1 : 1));
  const written = members.map(([name, member]) => {
    const inside = under(place, name);
    return `${writeString(name, inside)}:${write(member, inside)}`;
  });
  return `{${written.join(",")}}`;
}

/** Any realm's plain object: one that crossed from a frame or a worker has another prototype. */
function isPlain(value: object): boolean {
  const prototype = Object.getPrototypeOf(value);
  const root = prototype === null || Object.getPrototypeOf(prototype) === null;
  return root && Object.getOwnPropertySymbols(value).length === 0;
}

function under(place: Place, name: string): Place {
  return { ...place, pointer: `${place.pointer}/${name.replace(/~/g, "~0").replace(/\//g, "~1")}` };
}

function refuse(why: string, place: Place): never {
  throw new NotCanonical(`Not canonical JSON at "${place.pointer}": ${why}.`);
}
