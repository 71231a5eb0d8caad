import { expect } from "vitest";
import { compareLevels, type FirmwareScheme } from "../../../src/domain/firmware/levels.ts";

/** Every pair of an ascending list compares as its places do, both ways round. */
export function expectAscending(scheme: FirmwareScheme, levels: readonly string[]) {
  for (const [i, a] of levels.entries()) {
    for (const [j, b] of levels.entries()) {
      expect([a, b, compareLevels(scheme, a, b)]).toEqual([
        a,
        b,
        { ok: true, order: Math.sign(i - j) },
      ]);
    }
  }
}
