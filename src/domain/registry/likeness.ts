// Requirement: two records of one customer or one place are suggested as duplicates with the
// reason, and never joined unasked. What counts as alike: common practice, no source.
import { foldText } from "../search/fold.ts";
import { similarity } from "../search/trigrams.ts";

/** Why two records may be of one thing. */
export const LIKENESS_REASONS = [
  "same-email",
  "same-phone",
  "same-name",
  "alike-name",
  "same-address",
  "alike-address",
  "same-place",
  "same-customer",
] as const;
export type LikenessReason = (typeof LIKENESS_REASONS)[number];

export interface Likeness {
  /** The higher, the more alike; only for putting candidates in order. */
  score: number;
  reasons: LikenessReason[];
}

export interface CustomerLooks {
  name: string;
  email: string | null;
  phone: string | null;
  address: string | null;
}

export interface SiteLooks {
  customerId: string;
  name: string | null;
  addressLine: string;
  postcode: string;
  latitude: number;
  longitude: number;
}

const NAME_ALIKE = 0.5;
const ADDRESS_ALIKE = 0.5;
/** Sites nearer to each other than so many metres may be one. */
const NEAR_M = 30;
/** Length of a degree on the mean sphere of 6,371.0088 km (IUGG), in metres. */
const METRES_A_DEGREE = (Math.PI * 6_371_008.8) / 180;

/** Undefined where nothing but chance speaks for it. */
export function customerLikeness(one: CustomerLooks, other: CustomerLooks): Likeness | undefined {
  const name = similarity(one.name, other.name);
  return likenessOf([
    sameText(one.email, other.email) && ["same-email", 3],
    samePhone(one.phone, other.phone) && ["same-phone", 3],
    name === 1 && ["same-name", 2],
    name < 1 && name >= NAME_ALIKE && ["alike-name", name],
    sameText(one.address, other.address) && ["same-address", 2],
  ]);
}

/** Undefined where nothing but chance speaks for it; one customer alone is no reason. */
export function siteLikeness(one: SiteLooks, other: SiteLooks): Likeness | undefined {
  const address = similarity(whole(one), whole(other));
  const near = metresBetween(one, other) <= NEAR_M;
  const likeness = likenessOf([
    address === 1 && ["same-address", 3],
    address < 1 && mayBeOne(one, other, address) && ["alike-address", address],
    near && ["same-place", 2],
    one.customerId === other.customerId && ["same-customer", 1],
  ]);
  return likeness?.reasons.every((reason) => reason === "same-customer") ? undefined : likeness;
}

function likenessOf(
  found: readonly (false | readonly [LikenessReason, number])[],
): Likeness | undefined {
  const holding = found.filter((one) => one !== false);
  if (holding.length === 0) return undefined;
  return {
    score: holding.reduce((sum, [, weight]) => sum + weight, 0),
    reasons: holding.map(([reason]) => reason),
  };
}

/** Neighbours in one street are alike but for their number; that alone makes them two. */
function mayBeOne(one: SiteLooks, other: SiteLooks, alike: number): boolean {
  const [left = "", right = ""] = [one, other].map((site) => /\d+/.exec(site.addressLine)?.[0]);
  return alike >= ADDRESS_ALIKE && (left === right || left === "" || right === "");
}

const whole = ({ addressLine, postcode }: SiteLooks): string =>
  `${addressLine} ${foldText(postcode).replaceAll(" ", "")}`;

function sameText(one: string | null, other: string | null): boolean {
  const folded = foldText(one ?? "");
  return folded !== "" && folded === foldText(other ?? "");
}

/** The last nine digits: with or without the country's own number. */
function samePhone(one: string | null, other: string | null): boolean {
  const [left, right] = [one, other].map((text) => (text ?? "").replace(/\D/g, "").slice(-9));
  return left !== undefined && left.length >= 6 && left === right;
}

/** Flat is near enough for places that may be one. */
function metresBetween(one: SiteLooks, other: SiteLooks): number {
  const shortened = Math.cos((one.latitude * Math.PI) / 180);
  const north = (one.latitude - other.latitude) * METRES_A_DEGREE;
  const east = (one.longitude - other.longitude) * METRES_A_DEGREE * shortened;
  return Math.hypot(north, east);
}
