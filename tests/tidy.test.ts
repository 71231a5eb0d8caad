// Style as a test: the project's own habits, checked over its own files. Each check stands in
// tests/tidy/ with the examples on which it fails.

import { dirname } from "node:path";
import { expect, test } from "vitest";
import { checkCycles } from "./tidy/cycles.ts";
import { checkDatabaseAccess } from "./tidy/database-access.ts";
import { checkDirections } from "./tidy/directions.ts";
import { checkDocstrings, checkDomainOpenings, checkDomainPurity } from "./tidy/domain.ts";
import { checkDoors } from "./tidy/doors.ts";
import { checkConsole, checkErasable, checkTestsExpect, checkTestsRun } from "./tidy/language.ts";
import {
  COLUMNS_MAX,
  checkLengths,
  FILE_LINES_MAX,
  FUNCTION_LINES_MAX,
  fileLengths,
  functionLengths,
  wideLines,
} from "./tidy/lengths.ts";
import { checkNames } from "./tidy/names.ts";
import { readProjectFiles } from "./tidy/project-files.ts";
import { readRatchet, writeRatchet } from "./tidy/ratchet.ts";
import { checkWords } from "./tidy/words.ts";

const files = readProjectFiles(dirname(import.meta.dirname));
if (process.env.TIDY_RATCHET === "write") writeRatchet(files);

const RATCHET_HINT =
  "Split what grew. Where an entry only has to be lowered: TIDY_RATCHET=write npx vitest run " +
  "tests/tidy.test.ts takes today's lengths into tests/tidy/ratchet.json";

test("the project's files are read, and nothing that is not its own", () => {
  const paths = files.map(({ path }) => path);
  expect(paths).toContain("package.json");
  expect(paths).toContain("tests/tidy.test.ts");
  expect(paths.filter((path) => /(?:^|\/)node_modules\/|^\.git\//.test(path))).toEqual([]);
});

test.each([
  ["imports point one way: main → app → features → domain", checkDirections],
  ["the database is touched in src/db and store files only", checkDatabaseAccess],
  ["no imports lead in a circle", checkCycles],
  ["an index.ts is its folder's only door, and small", checkDoors],
  ["the domain has no clock, chance, network or Node global", checkDomainPurity],
  ["every exported function of the domain has a docstring", checkDocstrings],
  ["every domain file opens with its requirement", checkDomainOpenings],
  ["types can be stripped: no enum, namespace, decorator or parameter property", checkErasable],
  ["only what talks to a terminal uses console", checkConsole],
  ["every test runs", checkTestsRun],
  ["every test file expects something that can fail", checkTestsExpect],
  ["names are kebab-case and say what is inside", checkNames],
  ["no unfinished work, machine path or registry host", checkWords],
])("%s", (_habit, check) => {
  expect(check(files)).toEqual([]);
});

const ratchet = readRatchet();

test.each([
  ["file", "lines", FILE_LINES_MAX, fileLengths(files), ratchet.fileLines],
  ["function", "lines", FUNCTION_LINES_MAX, functionLengths(files), ratchet.functionLines],
  ["file", `lines over ${COLUMNS_MAX} columns`, 0, wideLines(files), ratchet.wideLines],
])("no %s has more %s than %d, but for a table that only shrinks", (...row) => {
  const [, , limit, lengths, table] = row;
  expect(checkLengths(lengths, limit, table), RATCHET_HINT).toEqual([]);
});
