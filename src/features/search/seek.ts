import type { FirmTransaction } from "../../db/scope.ts";
import { exchanged, oneSlipAway } from "../../domain/search/slips.ts";
import { readSought, type Sought } from "../../domain/search/sought.ts";
import type { Role } from "../../web/roles.ts";
import { FOUND_KINDS, type FoundKind, type FoundThing } from "./schemas.ts";
import { readShown } from "./shown-store.ts";
import {
  type Hit,
  seekReferences,
  seekSerialParts,
  seekSerials,
  seekWords,
  sitesOfCustomers,
  WORD_WHOLE,
} from "./store.ts";

const FOUND_MOST = 30;
const PART_LEAST = 3;
/** Second looks at what was typed, each a question to the database. */
const LOOKS_MOST = 8;
const SEES_CUSTOMERS: readonly Role[] = ["owner", "office", "manager", "auditor"];
const EXACT_LEAST = 10;
const WORDED = FOUND_KINDS.filter((kind) => kind !== "unit");
/** Word similarities: as good as spelt right, and with a slip or two. */
const CLOSE = 0.6;
const LOOSE = 0.3;

export interface Seeker {
  roles: readonly Role[];
  now: Date;
}

/** What the text can mean to somebody with these roles, the best first. */
export async function seek(
  tx: FirmTransaction,
  text: string,
  { roles, now }: Seeker,
): Promise<FoundThing[]> {
  const sought = readSought(text, now.getUTCFullYear());
  const coded = await seekCodes(tx, sought);
  const hits = saysEnough(coded, sought) ? coded : [...coded, ...(await seekTexts(tx, sought))];
  const seesAll = roles.some((role) => SEES_CUSTOMERS.includes(role));
  return shownHits(tx, seesAll ? hits : await withoutPeople(tx, hits));
}

async function seekCodes(tx: FirmTransaction, { code, references }: Sought): Promise<Hit[]> {
  if (code === "") return [];
  const exact = await seekReferences(tx, references, code);
  if (code.length < PART_LEAST || exact.some(({ kind }) => kind === "unit")) return exact;
  const parts = await seekSerialParts(tx, code);
  if (parts.length > 0) return [...exact, ...parts];
  const near = /\d/.test(code) ? oneSlipAway(code) : [];
  return [...exact, ...(near.length > 0 ? await seekSerials(tx, near) : [])];
}

/** A number alone can be part of much; letters and digits together that were found say enough. */
const saysEnough = (hits: readonly Hit[], { code }: Sought): boolean =>
  hits.length > 0 && /\d/.test(code) && /\D/.test(code);

/**
 * All words first, as nearly as they are spelt right; then with slips, then with letters exchanged,
 * then by the longest word alone.
 */
async function seekTexts(tx: FirmTransaction, { words, needed }: Sought): Promise<Hit[]> {
  const [longest] = needed;
  if (longest === undefined) return [];
  const look = (wanted: readonly string[], alike: number) =>
    seekWords(tx, {
      ...{ needed: wanted, alike, words: [...new Set([...words, ...wanted])] },
      kinds: WORDED,
    });
  const close = await look(needed, CLOSE);
  const whole = close.some(({ score }) => score >= 1 + needed.length * WORD_WHOLE);
  // Numbers have few different signs: loosely, everything is like everything.
  if (whole || (close.length > 0 && needed.some((word) => /\d/.test(word)))) return close;
  const looks = [needed, ...exchangedOnce(needed), ...(needed.length > 1 ? [[longest]] : [])];
  for (const wanted of looks.slice(0, LOOKS_MOST)) {
    const hits = await look(wanted, LOOSE);
    if (hits.length > 0) return hits;
  }
  return [];
}

/** Short words alone: the trigrams of longer ones survive an exchange. */
const exchangedOnce = (needed: readonly string[]): string[][] =>
  needed.flatMap((word, place) =>
    word.length > 5 ? [] : exchanged(word).map((other) => needed.toSpliced(place, 1, other)),
  );

/** Whoever does not see customers is led to their sites. */
async function withoutPeople(tx: FirmTransaction, hits: readonly Hit[]): Promise<Hit[]> {
  const customers = hits.filter(({ kind }) => kind === "customer");
  const ids = await sitesOfCustomers(
    tx,
    customers.map(({ id }) => id),
  );
  const score = Math.max(0, ...customers.map((hit) => Math.min(hit.score, 1)));
  const led = ids.map((id): Hit => ({ kind: "site", id, score }));
  return [...hits.filter(({ kind }) => kind !== "customer" && kind !== "person"), ...led];
}

async function shownHits(tx: FirmTransaction, hits: readonly Hit[]): Promise<FoundThing[]> {
  const ordered = hits.toSorted((left, right) => right.score - left.score).slice(0, 2 * FOUND_MOST);
  const shown = new Map<FoundKind, Awaited<ReturnType<typeof readShown>>>();
  for (const kind of FOUND_KINDS) {
    const ids = ordered.filter((hit) => hit.kind === kind).map(({ id }) => id);
    shown.set(kind, await readShown(tx, kind, ids));
  }
  const found = new Map<string, FoundThing>();
  for (const { kind, id, score } of ordered) {
    const thing = shown.get(kind)?.get(id);
    if (thing && !found.has(thing.id))
      found.set(thing.id, { ...thing, exact: score >= EXACT_LEAST });
  }
  return [...found.values()].slice(0, FOUND_MOST);
}
