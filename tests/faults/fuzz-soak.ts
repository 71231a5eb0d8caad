// `npm run soak:fuzz`: 100,000 requests made up from the OpenAPI document, with the tally of how
// they were answered. FUZZ_REQUESTS=… sets another count, FUZZ_SEED=… repeats a run.
import { spawnSync } from "node:child_process";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";

const PROJECT = dirname(dirname(dirname(fileURLToPath(import.meta.url))));
const VITEST = join(PROJECT, "node_modules", "vitest", "vitest.mjs");

const { status } = spawnSync(
  process.execPath,
  [VITEST, "run", "tests/security/made-up-requests.test.ts", "--disableConsoleIntercept=true"],
  { cwd: PROJECT, stdio: "inherit", env: { FUZZ_REQUESTS: "100000", ...process.env } },
);
process.exit(status ?? 1);
