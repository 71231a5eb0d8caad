// Requirement: a ledger entry is one text that anyone can hash again (product rule), canonical JSON
// by RFC 8785. The database writes the same text by putting pieces together, which are fixed here:
//
//   {"at":"…","body":…,"job":"…","kind":"…","previous":"…","seq":…}
//
// that is, '{"at":"' at '","body":' bodyText ',"job":"' job '","kind":"' kind '","previous":"'
// previous '","seq":' seq '}', with nothing between. It is canonical because the names stand in RFC
// 8785 order, `bodyText` comes from `ledgerBodyText`, and the rest hold nothing that JSON escapes.

import { CANONICAL_DEPTH_MAX, type Canonical, tryCanonicalize } from "./canonical-json.ts";

/** What the first entry of a job has for `previous`: it has none before it. */
export const FIRST_PREVIOUS = "0".repeat(64);

export type LedgerFields = {
  /** RFC 3339 in UTC: Z, at most nine digits after the second; 2026-03-14T09:26:53.589Z. */
  at: string;
  /** A JSON object: what happened. */
  body: Readonly<Record<string, unknown>>;
  /** The job's UUID in lower case. */
  job: string;
  /** Lower-case words joined by dots or hyphens, such as reading or close-out.passed. */
  kind: string;
  /** SHA-256 of the entry before as 64 lower-case hex digits, or FIRST_PREVIOUS. */
  previous: string;
  /** 1 for a job's first entry, then gapless. */
  seq: number;
};

const DAY = "\\d{4}-(?:0[1-9]|1[0-2])-(?:0[1-9]|[12]\\d|3[01])";
const TIME = "(?:[01]\\d|2[0-3]):[0-5]\\d:[0-5]\\d(?:\\.\\d{1,9})?";
const PATTERNS = {
  at: new RegExp(`^${DAY}T${TIME}Z$`),
  job: /^[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}$/,
  kind: /^[a-z]+(?:[.-][a-z]+)*$/,
  previous: /^[0-9a-f]{64}$/,
} as const;

/** Longest `kind`. */
export const KIND_LENGTH_MAX = 64;

/**
 * The canonical text of an entry's body, ready to be put into the entry text. Refuses what RFC 8785
 * cannot carry, what is no object, and more than CANONICAL_DEPTH_MAX - 1 levels: the entry is one.
 */
export function ledgerBodyText(body: unknown): Canonical {
  if (typeof body !== "object" || body === null || Array.isArray(body)) {
    return { ok: false, problem: "A ledger entry's body is a JSON object." };
  }
  return tryCanonicalize(body, CANONICAL_DEPTH_MAX - 1);
}

/**
 * The text of an entry, whose UTF-8 bytes are hashed. Throws TypeError for fields that do not have
 * the shapes of `LedgerFields`: the program makes them all.
 */
export function ledgerEntryText(fields: LedgerFields): string {
  const problem = ledgerFieldsProblem(fields);
  if (problem) throw new TypeError(problem);
  const body = ledgerBodyText(fields.body);
  if (!body.ok) throw new TypeError(body.problem);
  return (
    `{"at":"${fields.at}","body":${body.text},"job":"${fields.job}","kind":"${fields.kind}",` +
    `"previous":"${fields.previous}","seq":${fields.seq}}`
  );
}

/** What is wrong with an entry's fields (all but the body), in a sentence; undefined if nothing. */
export function ledgerFieldsProblem(fields: Readonly<Record<string, unknown>>): string | undefined {
  for (const [name, pattern] of Object.entries(PATTERNS)) {
    const value = fields[name];
    if (typeof value !== "string" || !pattern.test(value)) return `"${name}" is malformed.`;
  }
  if (String(fields.kind).length > KIND_LENGTH_MAX) return '"kind" is too long.';
  const seq = fields.seq;
  if (!Number.isSafeInteger(seq) || Number(seq) < 1) return '"seq" is no whole number from 1.';
  return undefined;
}
