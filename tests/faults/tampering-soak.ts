// `npm run soak:tampering`: a flipped bit at every byte of a bag, 2,000 random edits and 200
// exports again, each checked by the README's own commands and by verify. FLIPS=…, EDITS=… and
// EXPORTS=… set other counts, SEED=… repeats a run.
import { spawnSync } from "node:child_process";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";

const PROJECT = dirname(dirname(dirname(fileURLToPath(import.meta.url))));
const VITEST = join(PROJECT, "node_modules", "vitest", "vitest.mjs");
/** More places than a bag has bytes are every byte. */
const EVERY_BYTE = String(2 ** 40);

const { status } = spawnSync(
  process.execPath,
  [VITEST, "run", "tests/faults/evidence-tampering.test.ts", "--disableConsoleIntercept=true"],
  {
    cwd: PROJECT,
    stdio: "inherit",
    env: { FLIPS: EVERY_BYTE, EDITS: "2000", EXPORTS: "200", ...process.env },
  },
);
process.exit(status ?? 1);
