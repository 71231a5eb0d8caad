// While instances are replaced one by one, the version before works on the new version's database:
// a migration may add, but takes nothing away that the version before reads or writes.
import { describe, expect, test } from "vitest";
import { readMigrations } from "../../src/db/migrate.ts";

/** Migrations from here on; what came before was not yet held to it. */
const SINCE = "20261129";
/** The first line of one that takes away what no version since that one uses any more. */
const SAYS_SINCE = /^-- unused since \d+\.\d+\.\d+: \w/;

const TAKES_AWAY: [what: string, pattern: RegExp][] = [
  ["drops a table or a column", /\bDROP\s+(?:TABLE|COLUMN)\b/i],
  ["renames", /\bRENAME\s+(?:TO|COLUMN)\b/i],
  ["changes a column's type", /\bALTER\s+COLUMN\s+\S+\s+(?:SET\s+DATA\s+)?TYPE\b/i],
  ["forbids NULL in a column that is there", /\bALTER\s+COLUMN\s+\S+\s+SET\s+NOT\s+NULL\b/i],
  [
    "adds a column that the version before cannot fill",
    /\bADD\s+COLUMN\b(?![^,;]*\b(?:DEFAULT|GENERATED)\b)[^,;]*\bNOT\s+NULL\b/i,
  ],
];

const comments = /--[^\n]*/g;

function takenAway(sql: string): string[] {
  if (SAYS_SINCE.test(sql)) return [];
  const statements = sql.replace(comments, "");
  return TAKES_AWAY.filter(([, pattern]) => pattern.test(statements)).map(([what]) => what);
}

describe("a migration", () => {
  test("takes nothing away that the version before uses", () => {
    const faults = readMigrations()
      .filter(({ name }) => name >= SINCE)
      .flatMap(({ name, sql }) => takenAway(sql).map((what) => `${name} ${what}`));
    expect(faults).toEqual([]);
  });

  test.each([
    ["ALTER TABLE a DROP COLUMN b;", 1],
    ["DROP TABLE a;", 1],
    ['ALTER TABLE "a" RENAME COLUMN "b" TO "c";', 1],
    ["ALTER TABLE a ALTER COLUMN b TYPE text;", 1],
    ["ALTER TABLE a ALTER COLUMN b SET NOT NULL;", 1],
    ['ALTER TABLE "a" ADD COLUMN "b" INTEGER NOT NULL;', 1],
    ["ALTER TABLE a ADD COLUMN b int NOT NULL DEFAULT 1;", 0],
    ["ALTER TABLE a ADD COLUMN b int DEFAULT 1 NOT NULL;", 0],
    ["ALTER TABLE a ADD COLUMN b int, ADD COLUMN c int;", 0],
    ["CREATE TABLE a (b int NOT NULL);", 0],
    ["-- DROP TABLE a;\nCREATE TABLE c (d int);", 0],
    ["-- unused since 0.2.0: nobody reads b\nALTER TABLE a DROP COLUMN b;", 0],
  ])("is judged by what it says: %s", (sql, faults) => {
    expect(takenAway(sql)).toHaveLength(faults);
  });
});
