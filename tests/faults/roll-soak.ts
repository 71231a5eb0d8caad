// `npm run soak:roll -- REVISION`: the version before goes on while the database is already the new
// one's, as it does while instances are replaced one by one. The older source is taken from git,
// the migrations that it does not know are laid beside its own, and its whole suite of features and
// runs is held against that database. What it knows of the schema's text (drift) is left out.
import { execFileSync, spawnSync } from "node:child_process";
import { cpSync, existsSync, mkdtempSync, readdirSync, rmSync, symlinkSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";

const PROJECT = fileURLToPath(new URL("../../", import.meta.url));
const MIGRATIONS = join("prisma", "migrations");
const revision = process.argv[2];
if (!revision) {
  process.stderr.write("Say which version goes on: npm run soak:roll -- REVISION\n");
  process.exit(2);
}

const folder = join(mkdtempSync(join(tmpdir(), "holdpoint-roll-")), "before");
const git = (...args: string[]): string =>
  execFileSync("git", args, { cwd: PROJECT, encoding: "utf8" }).trim();
git("worktree", "add", "--detach", folder, revision);
try {
  const unknown = readdirSync(join(PROJECT, MIGRATIONS)).filter(
    (name) => !existsSync(join(folder, MIGRATIONS, name)),
  );
  process.stdout.write(
    `${git("rev-parse", "--short", revision)} does not know ${unknown.length} migrations:\n`,
  );
  for (const name of unknown) {
    process.stdout.write(`  ${name}\n`);
    cpSync(join(PROJECT, MIGRATIONS, name), join(folder, MIGRATIONS, name), { recursive: true });
  }
  if (unknown.length === 0) throw new Error("There is nothing new to try.");
  symlinkSync(join(PROJECT, "node_modules"), join(folder, "node_modules"));
  run("prisma/generate.mjs");
  run("node_modules/vitest/vitest.mjs", "run", ...process.argv.slice(3), ...chosen());
} finally {
  git("worktree", "remove", "--force", folder);
  rmSync(join(folder, ".."), { recursive: true, force: true });
}

function chosen(): string[] {
  return process.argv.length > 3 ? [] : ["tests/features", "tests/runs"];
}

function run(...args: string[]): void {
  const { status } = spawnSync(process.execPath, args, { cwd: folder, stdio: "inherit" });
  if (status !== 0) process.exitCode = 1;
}
