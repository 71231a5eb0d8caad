// Requirement: tests are made in an order in which none endangers anybody or spoils another: with
// the supply off before it is on, with the breakers where the test needs them, not sooner than the
// installation has settled, and after a failure the tests before it that it may have influenced are
// repeated (IEC 60364-6 6.4.3.1, from memory).
import { z } from "zod";

export const SUPPLY_STATES = ["dead", "live"] as const;
export const BREAKER_STATES = ["open", "closed"] as const;
export type BreakerState = (typeof BREAKER_STATES)[number];

/** A breaker and how it must stand, or is left. */
export interface BreakerSet {
  breaker: string;
  state: BreakerState;
}

const BREAKERS_MOST = 20;
const DWELL_MOST_S = 7 * 24 * 3600;
const REPEATS_MOST = 30;

const breakers = z
  .record(
    z.string().regex(/^[a-z][a-z0-9_]{0,39}$/, "must be lower-case letters, digits and _"),
    z.enum(BREAKER_STATES),
  )
  .refine((states) => Object.keys(states).length > 0, "Name at least one breaker")
  .refine(
    (states) => Object.keys(states).length <= BREAKERS_MOST,
    `An item names at most ${BREAKERS_MOST} breakers`,
  );

const itemId = z.string().regex(/^[a-z][a-z0-9_]{0,47}$/);
const seconds = z.number().int().min(0).max(DWELL_MOST_S);

/** The fields of an item that say in which order, and in which state of the supply, it is done. */
export const sequenceFields = {
  supply: z
    .enum(SUPPLY_STATES)
    .optional()
    .describe(
      "dead: with the supply off and proven dead; live: with it on, after the dead hold points",
    ),
  breakers: z
    .strictObject({
      with: breakers
        .optional()
        .describe("breakers by name, and how each must stand when the item is done"),
      leaves: breakers
        .optional()
        .describe("breakers by name, and how each stands once the item is met"),
    })
    .optional()
    .describe("how breakers must stand for the item, and how it leaves them"),
  dwell: z
    .strictObject({
      after: itemId.describe("the item from whose meeting the time counts"),
      atLeastS: seconds.describe("seconds to wait at least; exactly so many are enough"),
      atMostS: seconds
        .optional()
        .describe("seconds after which it is too late; exactly so many are not"),
    })
    .optional()
    .describe("how long after another item was met this one is done"),
  onFailRepeat: z
    .array(itemId)
    .min(1)
    .max(REPEATS_MOST)
    .optional()
    .describe(
      "earlier items that a failure here may have influenced: they are repeated before this one is",
    ),
};
