// Chance that can be had again: SEED=… repeats a run, FAULT_ROUNDS=… makes it longer.
import { randomInt } from "node:crypto";

export interface Chance {
  /** From 0 up to, but not including, 1. */
  share(): number;
  /** A whole number from `least` to `most`, both included. */
  between(least: number, most: number): number;
  pick<Thing>(things: readonly Thing[]): Thing;
}

export const SEED = Number(process.env.SEED ?? randomInt(2 ** 31));

export const roundsOf = (quick: number): number => Number(process.env.FAULT_ROUNDS ?? quick);

/** The generator mulberry32 (public domain, from memory): quick, and the same for the same seed. */
export function chanceOf(seed: number): Chance {
  let state = seed >>> 0;
  const share = (): number => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  };
  const between = (least: number, most: number): number =>
    least + Math.floor(share() * (most - least + 1));
  return {
    share,
    between,
    pick: (things) => {
      const thing = things[between(0, things.length - 1)];
      if (thing === undefined) throw new Error("nothing to pick from");
      return thing;
    },
  };
}
