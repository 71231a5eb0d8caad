// A backup as an operator makes and restores it, each command in a process of its own, on the demo.
import { execFileSync } from "node:child_process";
import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { join, relative } from "node:path";
import pg from "pg";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { openDatabase } from "../../src/db/open.ts";
import { loadDemo } from "../../src/demo/load-demo.ts";
import { readSecrets } from "../../src/secrets.ts";
import { configIn, DEMO_PASSWORD, temporaryFolder } from "../support/demo.ts";
import { clusterFolder, operate, rowHashes, superuserUrl } from "../support/own-cluster.ts";
import { sha256Of } from "../support/photo-sender.ts";
import { openWithPassphrase } from "./open-sealed.ts";

const PASSPHRASE = "lantern quarry seven otters";
const folders: string[] = [];
const own = (folder: string): string => {
  folders.push(folder);
  return folder;
};
const safe = own(temporaryFolder());
const from = own(clusterFolder());
const to = own(clusterFolder());
const plain = join(safe, "plain.tar");
const sealed = join(safe, "sealed.age");
const passphrase = join(safe, "passphrase");
let hashes: Record<string, string>;
let rules: string[];

/** Every file below a folder with its bytes' hash. */
function filesIn(folder: string): [string, string][] {
  const entries = readdirSync(folder, { recursive: true, withFileTypes: true });
  const files = entries.filter((entry) => entry.isFile());
  return files
    .map(({ parentPath, name }) => join(parentPath, name))
    .map((path): [string, string] => [relative(folder, path), sha256Of(readFileSync(path))])
    .sort();
}

/** What the database refuses by itself: keys, checks, triggers, policies, grants. */
async function readRules(url: string): Promise<string[]> {
  const client = new pg.Client({ connectionString: url });
  await client.connect();
  const { rows } = await client.query(
    `SELECT concat_ws(' ', conrelid::regclass, conname, pg_get_constraintdef(oid)) AS rule
       FROM pg_constraint WHERE connamespace = 'public'::regnamespace
     UNION ALL SELECT concat_ws(' ', pg_get_triggerdef(oid), tgenabled) FROM pg_trigger
       WHERE NOT tgisinternal
     UNION ALL SELECT concat_ws(' ', relname, relrowsecurity, relforcerowsecurity, relacl)
       FROM pg_class WHERE relnamespace = 'public'::regnamespace
     UNION ALL SELECT concat_ws(' ', polname, polrelid::regclass) FROM pg_policy
     ORDER BY 1`,
  );
  await client.end();
  return rows.map(({ rule }) => rule);
}

beforeAll(async () => {
  const database = await openDatabase(configIn(from), readSecrets(from));
  await loadDemo(database.db, from, DEMO_PASSWORD, new Date("2026-11-25T09:00:00Z"));
  writeFileSync(passphrase, `${PASSPHRASE}\n`);
  // Beside the service that has the database open.
  const made = [
    await operate(from, ["backup", plain]),
    await operate(from, ["backup", sealed, "--passphrase-file", passphrase]),
  ];
  expect(made).toMatchObject([{ code: 0 }, { code: 0 }]);
  expect(made[0]?.said).toContain("not encrypted");
  hashes = await rowHashes(superuserUrl(from, database));
  rules = await readRules(superuserUrl(from, database));
  await database.close();
}, 300_000);
afterAll(() => {
  for (const folder of folders) rmSync(folder, { recursive: true, force: true });
});

describe("a backup", () => {
  test("is a tar file whose sums anybody can check", () => {
    const folder = join(safe, "unpacked");
    mkdirSync(folder);
    execFileSync("tar", ["-x", "-f", plain, "-C", folder]);
    const sums = readdirSync(join(folder, "sums")).map((name) => join("sums", name));
    const said = execFileSync("sha256sum", ["--check", "--strict", ...sums], { cwd: folder });
    const checked = said.toString().trimEnd().split("\n");
    const { entries, rows } = JSON.parse(readFileSync(join(folder, "end.json"), "utf8"));
    expect(checked).toHaveLength(entries);
    for (const [table, count] of Object.entries(rows)) {
      expect(hashes[table]?.split(" ")[0], table).toBe(String(count));
    }
    const left = Object.keys(hashes).filter((table) => !(table in rows));
    expect(left.sort()).toEqual(["_prisma_migrations", "search_entry"]);
  });

  test("that is encrypted opens by the format's specification", () => {
    const opened = join(safe, "opened.tar");
    writeFileSync(opened, openWithPassphrase(readFileSync(sealed), PASSPHRASE));
    const head = execFileSync("tar", ["-x", "-O", "-f", opened, "backup.json"]).toString();
    expect(JSON.parse(head)).toMatchObject({ format: "holdpoint-backup/1" });
    expect(readFileSync(sealed).includes("copperbeck")).toBe(false);
  });

  test("is not restored over what is there, unless that may be moved aside", async () => {
    writeFileSync(join(to, "notes.txt"), "somebody's own");
    const refused = await operate(to, ["restore", plain]);
    expect(refused).toMatchObject({ code: 1 });
    expect(refused.said).toContain("--replace");
    expect(readdirSync(to)).toEqual(["notes.txt"]);
  });

  test("that is cut off changes nothing", async () => {
    const cut = join(safe, "cut.tar");
    writeFileSync(cut, readFileSync(plain).subarray(0, 200_000));
    const broken = await operate(to, ["restore", cut, "--replace"]);
    expect(broken).toMatchObject({ code: 1 });
    expect(broken.said).toContain("cut off");
    expect(readdirSync(to)).toEqual(["notes.txt"]);
  });

  test("restored elsewhere gives every row, rule and file back", { timeout: 180_000 }, async () => {
    const args = ["restore", sealed, "--passphrase-file", passphrase, "--replace"];
    expect(await operate(to, args)).toMatchObject({ code: 0 });
    const [aside = ""] = readdirSync(to).filter((name) => name.startsWith("before-restore-"));
    expect(readFileSync(join(to, aside, "notes.txt"), "utf8")).toBe("somebody's own");
    const database = await openDatabase(configIn(to), readSecrets(to));
    const { _prisma_migrations: _applied, ...now } = await rowHashes(superuserUrl(to, database));
    const { _prisma_migrations: _before, ...before } = hashes;
    expect(now).toEqual(before);
    expect(await readRules(superuserUrl(to, database))).toEqual(rules);
    await database.close();
    expect(filesIn(join(to, "photos"))).toEqual(filesIn(join(from, "photos")));
    for (const name of ["secrets.json", "evidence-secret"].filter((key) =>
      existsSync(join(from, key)),
    )) {
      expect(readFileSync(join(to, name))).toEqual(readFileSync(join(from, name)));
    }
  });
});
