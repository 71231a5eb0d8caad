// Guessing is slowed for the address guessed at and for the network it comes from, on every
// instance alike.
import { createHash } from "node:crypto";
import type { Database } from "../../db/client.ts";
import { Problem } from "../../errors.ts";
import { countFailure, forgetFailures, readFailures } from "./store.ts";

export const WINDOW_MS = 15 * 60_000;
export const FAILURES_PER_ADDRESS = 8;
export const FAILURES_PER_NETWORK = 60;

export async function refuseWhenThrottled(db: Database, email: string, ip: string): Promise<void> {
  const limits: [string, number][] = [
    [addressKey(email), FAILURES_PER_ADDRESS],
    [networkKey(ip), FAILURES_PER_NETWORK],
  ];
  for (const [key, limit] of limits) {
    const [count] = await readFailures(db, [key]);
    if (!count || count.failures < limit) continue;
    const leftMs = count.windowStart.getTime() + WINDOW_MS - Date.now();
    if (leftMs <= 0) continue;
    const retryAfterS = Math.ceil(leftMs / 1000);
    throw new Problem("too-many-sign-ins", `Try again in ${Math.ceil(retryAfterS / 60)} minutes.`, {
      retryAfterS,
    });
  }
}

export const noteFailure = (db: Database, email: string, ip: string): Promise<void> =>
  countFailure(db, [addressKey(email), networkKey(ip)], WINDOW_MS);

export const noteSuccess = (db: Database, email: string): Promise<void> =>
  forgetFailures(db, addressKey(email));

const addressKey = (email: string): string => keyOf(`address:${email.toLowerCase()}`);
const networkKey = (ip: string): string => keyOf(`network:${ip}`);
const keyOf = (text: string): string => createHash("sha256").update(text).digest("hex");
