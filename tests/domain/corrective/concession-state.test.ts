// Both sides of each boundary; the thirty days are a product rule.
import { expect, test } from "vitest";
import { concessionState } from "../../../src/domain/corrective/concession-state.ts";

test.each([
  [false, null, "in-force"],
  [false, "2026-12-26", "in-force"],
  [false, "2026-12-25", "expiring"],
  [false, "2026-11-25", "expiring"],
  [false, "2026-11-24", "expired"],
  [true, null, "withdrawn"],
  [true, "2026-11-24", "withdrawn"],
] as const)("revoked %s, last day %s: %s on 2026-11-25", (revoked, expiresOn, state) => {
  expect(concessionState({ revoked, expiresOn }, "2026-11-25")).toBe(state);
});
