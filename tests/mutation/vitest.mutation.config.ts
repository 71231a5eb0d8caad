// The tests by which mutants are told apart: examples only. Properties over random jobs are left
// out, since they count how often a case came up and would run in full again for every mutant.
import { defineConfig } from "vitest/config";

export default defineConfig({
  test: {
    include: ["tests/domain/{acceptance,closeout}/*.test.ts"],
    exclude: ["**/*-properties.test.ts", "tests/domain/closeout/bearing.test.ts"],
    testTimeout: 30_000,
  },
});
