import { defineConfig } from "vitest/config";

export default defineConfig({
  test: {
    include: ["tests/**/*.test.ts"],
    testTimeout: 30_000,
    hookTimeout: 60_000,
    maxWorkers: 2,
    // Modules are loaded once a worker, not once a file: half the time of the whole. So nothing in
    // the source keeps anything that one test could leave to another.
    isolate: false,
    globalSetup: ["tests/support/server.ts"],
  },
});
