import type { FirmTransaction } from "../../db/scope.ts";
import { customerLikeness, type Likeness, siteLikeness } from "../../domain/registry/likeness.ts";
import { readSought } from "../../domain/search/sought.ts";
import { seekWords } from "../search/store.ts";
import { customersByContact, readCustomers, readSites, sitesNearby } from "./candidates-store.ts";
import { findMergeable, type MergeKind } from "./store.ts";

export interface Candidate extends Likeness {
  id: string;
  reference: string;
  title: string;
  detail: string;
}

const SHOWN_MOST = 10;
const ANY_YEAR = 2000;
const ALIKE = 0.5;

/** Records that may be of the same thing, the most alike first; undefined: there is no such one. */
export async function duplicatesOf(
  tx: FirmTransaction,
  kind: MergeKind,
  id: string,
): Promise<Candidate[] | undefined> {
  const row = await findMergeable(tx, kind, id);
  if (!row) return undefined;
  const found =
    "addressLine" in row ? await likeSites(tx, row) : await likeCustomers(tx, row as CustomerRow);
  return found.toSorted((left, right) => right.score - left.score).slice(0, SHOWN_MOST);
}

type CustomerRow = Awaited<ReturnType<typeof readCustomers>>[number];
type SiteRow = Omit<Awaited<ReturnType<typeof readSites>>[number], "customer">;

async function likeCustomers(tx: FirmTransaction, row: CustomerRow): Promise<Candidate[]> {
  const ids = [
    ...(await idsLike(tx, "customer", row.name)),
    ...(await idsLike(tx, "customer", (row.phone ?? "").replace(/\D/g, "").slice(-9))),
    ...(await customersByContact(tx, row)),
  ];
  const others = await readCustomers(tx, [...new Set(ids)], row.id);
  return others.flatMap((other) => {
    const likeness = customerLikeness(row, other);
    if (!likeness) return [];
    const { id, reference, name: title, email, phone } = other;
    return { id, reference, title, detail: [email, phone].filter(Boolean).join(", "), ...likeness };
  });
}

async function likeSites(tx: FirmTransaction, row: SiteRow): Promise<Candidate[]> {
  const ids = [
    ...(await idsLike(tx, "site", row.addressLine)),
    ...(await idsLike(tx, "site", row.postcode)),
    ...(await sitesNearby(tx, row)),
  ];
  const others = await readSites(tx, [...new Set(ids)], row.id);
  return others.flatMap((other) => {
    const likeness = siteLikeness(row, other);
    if (!likeness) return [];
    const { id, reference, addressLine, locality, postcode, customer } = other;
    const title = `${addressLine}, ${locality} ${postcode}`;
    return { id, reference, title, detail: customer.name, ...likeness };
  });
}

async function idsLike(tx: FirmTransaction, kind: MergeKind, text: string): Promise<string[]> {
  const { words, needed } = readSought(text, ANY_YEAR);
  if (needed.length === 0) return [];
  const hits = await seekWords(tx, { words, needed, kinds: [kind], alike: ALIKE });
  return hits.map(({ id }) => id);
}
