// A password that somebody else set is known to two: it opens the account for some days, within
// which its person chooses another, and never becomes the lasting one.
import { Problem } from "../../errors.ts";

export const GIVEN_LIFE_DAYS = 7;

/** Until when it signs in; undefined for a password of one's own. */
export const givenUntil = (givenAt: Date | null): Date | undefined =>
  givenAt === null ? undefined : new Date(givenAt.getTime() + GIVEN_LIFE_DAYS * 86_400_000);

export function refuseWornOut(givenAt: Date | null, now: Date): void {
  const until = givenUntil(givenAt);
  if (until === undefined || now < until) return;
  throw new Problem(
    "sign-in-refused",
    `This password was given to you for ${GIVEN_LIFE_DAYS} days. Ask an owner for another.`,
  );
}
