// Requirement: replaying a job's ledger shows any entry that was changed, removed, inserted,
// repeated or moved (product rule). Each entry holds the SHA-256 of the one before, and the last
// hash, the head, is printed on the customer's certificate.

import { parseCanonical } from "./canonical-json.ts";
import { FIRST_PREVIOUS, ledgerFieldsProblem } from "./ledger-entry.ts";
import { sha256HexSync, utf8 } from "./sha256.ts";

/** An entry as it is stored: its place, its canonical text, and the SHA-256 of that text. */
export type StoredEntry = { seq: number; text: string; sha256: string };

/** `head` is FIRST_PREVIOUS for a ledger without entries; `at` is where replay stopped. */
export type ChainVerdict =
  | { ok: true; head: string; length: number }
  | { ok: false; at: number; problem: string };

const NAMES = "at,body,job,kind,previous,seq";

/**
 * Replays one job's ledger in the order given. Without `expectedHead` it cannot know of entries cut
 * off at the end, nor of a chain rewritten from some entry on with all its hashes: only a head kept
 * elsewhere (the certificate, the firm's daily checkpoint) shows those, so pass it where there is
 * one. `at` counts from 1, and is the last entry where only the head differs. Source: FIPS 180-4,
 * RFC 8785; the chain itself is a product rule.
 */
export function verifyChain(entries: readonly StoredEntry[], expectedHead?: string): ChainVerdict {
  const replay = new ChainReplay();
  for (const entry of entries) {
    const problem = replay.take(entry);
    if (problem) return { ok: false, at: replay.length + 1, problem };
  }
  const { head, length } = replay;
  if (expectedHead !== undefined && expectedHead !== head) {
    const problem = `The ledger ends in ${head}, where ${expectedHead} was expected.`;
    return { ok: false, at: length, problem };
  }
  return { ok: true, head, length };
}

/** Replays one job's ledger entry by entry, for ledgers that are read as they come. */
export class ChainReplay {
  /** SHA-256 of the last good entry; FIRST_PREVIOUS before any. */
  head = FIRST_PREVIOUS;
  /** Good entries so far. */
  length = 0;
  /** The job that the first entry names. */
  job: unknown;

  /** What is wrong with the next entry, in a sentence that names it; undefined if nothing. */
  take(entry: StoredEntry): string | undefined {
    const seq = this.length + 1;
    const read = readEntry(entry, seq);
    if (!read.ok) return read.problem;
    this.job ??= read.fields.job;
    const problem = linkProblem(read.fields, { head: this.head, job: this.job, seq });
    if (problem) return problem;
    this.head = entry.sha256;
    this.length = seq;
    return undefined;
  }
}

type Fields = Readonly<Record<string, unknown>>;
type Read = { ok: true; fields: Fields } | { ok: false; problem: string };

/** The entry's own soundness: its place, hash, canonical text, and members. */
function readEntry(entry: StoredEntry, seq: number): Read {
  const refuse = (why: string): Read => ({ ok: false, problem: `Entry ${seq}: ${why}` });
  if (entry.seq !== seq) return refuse(`entry ${entry.seq} stands in its place.`);
  const parsed = parseCanonical(entry.text);
  if (!parsed.ok) return refuse("its text is not canonical JSON (RFC 8785).");
  if (sha256HexSync(utf8(entry.text)) !== entry.sha256) {
    return refuse("its text does not have the SHA-256 stored with it.");
  }
  const fields = parsed.value;
  if (!isObject(fields) || Object.keys(fields).join() !== NAMES || !isObject(fields.body)) {
    return refuse(`it is no object with exactly ${NAMES} and an object for body.`);
  }
  const problem = ledgerFieldsProblem(fields);
  return problem ? refuse(problem) : { ok: true, fields };
}

/** The entry's tie to the ones before it. */
function linkProblem(
  fields: Fields,
  expected: { head: string; job: unknown; seq: number },
): string | undefined {
  const start = `Entry ${expected.seq}:`;
  if (fields.seq !== expected.seq) return `${start} its text says it is entry ${fields.seq}.`;
  if (fields.job !== expected.job) return `${start} it belongs to another job.`;
  if (fields.previous !== expected.head) {
    return `${start} it does not follow from the entry before it.`;
  }
  return undefined;
}

function isObject(value: unknown): value is Fields {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}
