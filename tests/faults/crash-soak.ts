// `npm run soak:crash`: 200 kills of the service, of its database and of both, while results are
// being submitted. FAULT_ROUNDS=… sets another count, SEED=… repeats a run.
import { spawnSync } from "node:child_process";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";

const PROJECT = dirname(dirname(dirname(fileURLToPath(import.meta.url))));
const VITEST = join(PROJECT, "node_modules", "vitest", "vitest.mjs");

const { status } = spawnSync(
  process.execPath,
  [VITEST, "run", "tests/faults/crash.test.ts", "--disableConsoleIntercept=true"],
  { cwd: PROJECT, stdio: "inherit", env: { FAULT_ROUNDS: "200", ...process.env } },
);
process.exit(status ?? 1);
