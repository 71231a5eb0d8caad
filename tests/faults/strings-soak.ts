// `npm run soak:strings`: every naughty string through every record, form, file and mail, with the
// tally of what was kept and what was refused.
import { spawnSync } from "node:child_process";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";

const PROJECT = dirname(dirname(dirname(fileURLToPath(import.meta.url))));
const VITEST = join(PROJECT, "node_modules", "vitest", "vitest.mjs");

const { status } = spawnSync(
  process.execPath,
  [VITEST, "run", "tests/security/naughty-", "--disableConsoleIntercept=true"],
  { cwd: PROJECT, stdio: "inherit", env: { STRING_SHARES: "1", ...process.env } },
);
process.exit(status ?? 1);
