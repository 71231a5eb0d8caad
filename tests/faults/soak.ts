// The long share of the tablet's fault tests: `npm run soak:offline`, or only the kinds that are
// named after it. Each prints its figures and its seed; SEED=… repeats a run, FAULT_ROUNDS=… sets
// another count. All figures stand together at the end.
import { spawn } from "node:child_process";
import { dirname, join } from "node:path";
import { createInterface } from "node:readline";
import { fileURLToPath } from "node:url";

const PROJECT = dirname(dirname(dirname(fileURLToPath(import.meta.url))));
const VITEST = join(PROJECT, "node_modules", "vitest", "vitest.mjs");

/** Rounds beyond the length of a request are every byte of it. */
const SHARES = [
  { file: "tablet-delivery", rounds: 10_000 },
  { file: "tablet-lost-replies", rounds: 10_000 },
  { file: "tablet-cut-requests", rounds: 10_000 },
  { file: "tablet-strangers", rounds: 1000 },
  { file: "tablet-two-devices", rounds: 10_000 },
  { file: "photo-uploads", rounds: 1000 },
  { file: "tablet-killed", rounds: 300 },
  { file: "tablet-full", rounds: 200 },
  { file: "tablet-evicted", rounds: 200 },
  { file: "tablet-clocks", rounds: 1000 },
  { file: "tablet-contexts", rounds: 50 },
  { file: "tablet-sessions", rounds: 100 },
  { file: "tablet-outdated", rounds: 200 },
  { file: "sync-model", folder: "tablet", rounds: 100 },
];

interface Outcome {
  file: string;
  passed: boolean;
  figures: string[];
}

/** Passes on what the run prints, and remembers its lines of figures. */
async function run({ file, folder = "faults", rounds }: (typeof SHARES)[number]): Promise<Outcome> {
  const child = spawn(process.execPath, [VITEST, "run", `tests/${folder}/${file}.test.ts`], {
    cwd: PROJECT,
    stdio: ["ignore", "pipe", "inherit"],
    env: { FAULT_ROUNDS: String(rounds), ...process.env },
  });
  const figures: string[] = [];
  const ended = new Promise<number | null>((resolve) => child.once("close", resolve));
  for await (const line of createInterface({ input: child.stdout })) {
    process.stdout.write(`${line}\n`);
    if (/^\S.*: \d+ .*\(SEED=\d+\)$/.test(line)) figures.push(line);
  }
  return { file, passed: (await ended) === 0, figures };
}

const asked = process.argv.slice(2);
const unknown = asked.filter((name) => SHARES.every(({ file }) => file !== name));
if (unknown.length > 0) {
  const kinds = SHARES.map(({ file }) => file).join(", ");
  process.stderr.write(`There is no ${unknown.join(", ")}. There are: ${kinds}\n`);
  process.exit(2);
}

const outcomes: Outcome[] = [];
for (const share of SHARES) {
  if (asked.length === 0 || asked.includes(share.file)) outcomes.push(await run(share));
}
process.stdout.write(`\n${outcomes.flatMap(({ figures }) => figures).join("\n")}\n`);
const failed = outcomes.filter(({ passed }) => !passed);
for (const { file } of failed) process.stderr.write(`${file} failed\n`);
process.exitCode = failed.length > 0 ? 1 : 0;
