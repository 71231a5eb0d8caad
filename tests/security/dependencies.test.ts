// What package.json and its lock file bring in keeps to the rules of dependencies.ts. Licences are
// read as SPDX 2.3, annex D, says (AND, OR, one level of parentheses), from memory.
import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import {
  checkDependencies,
  EXCEPTIONS,
  INSTALL_SCRIPTS,
  type Lock,
  nameOf,
} from "./dependencies.ts";

const read = (path: string) =>
  JSON.parse(readFileSync(new URL(`../../${path}`, import.meta.url), "utf8"));
const manifest = read("package.json");
const lock: Lock = read("package-lock.json");

test("every dependency is licensed permissively, locked by its hash, and from the registry", () => {
  expect(Object.keys(lock.packages).length).toBeGreaterThan(100);
  expect(checkDependencies(manifest, lock)).toEqual([]);
});

test("no exception and no install script is listed that no package needs", () => {
  const packages = Object.entries(lock.packages).filter(([place]) => place !== "");
  const names = packages.map(([place]) => nameOf(place));
  const withScripts = packages.filter(([, entry]) => entry.hasInstallScript);
  const unused = EXCEPTIONS.filter(
    (exception) => !names.some((name) => exception.names.test(name)),
  );
  expect(unused).toEqual([]);
  expect(withScripts.map(([place]) => nameOf(place)).sort()).toEqual(
    Object.keys(INSTALL_SCRIPTS).sort(),
  );
});

const INTEGRITY = `sha512-${"a".repeat(86)}==`;
const GOOD = { version: "1.2.3", license: "MIT", integrity: INTEGRITY };
const problemsOf = (name: string, entry: object) =>
  checkDependencies({}, { packages: { [`node_modules/${name}`]: { ...GOOD, ...entry } } });

describe("a planted package", () => {
  test.each([
    ["of a copyleft licence", "planted", { license: "GPL-3.0-only" }],
    ["of two licences, one of them copyleft", "planted", { license: "MIT AND AGPL-3.0-only" }],
    ["without a licence", "planted", { license: undefined }],
    ["of a licence excused for another", "planted", { license: "MPL-2.0" }],
    ["excused for development, where people are served", "axe-core", { license: "MPL-2.0" }],
    ["without a hash", "planted", { integrity: undefined }],
    ["with a SHA-1", "planted", { integrity: `sha1-${"a".repeat(27)}=` }],
    ["from git", "planted", { resolved: "git+ssh://git@forge.example/a/b.git#0123456" }],
    ["from an address", "planted", { resolved: "http://files.example/planted-1.2.3.tgz" }],
    ["that is a folder", "planted", { link: true }],
    ["with an install script", "planted", { hasInstallScript: true }],
  ])("%s is told", (_what, name, entry) => {
    expect(problemsOf(name, entry)).toHaveLength(1);
  });

  test.each([
    ["of one of two licences", "planted", { license: "(GPL-2.0-only OR MIT)" }],
    ["excused for development", "axe-core", { license: "MPL-2.0", dev: true }],
    ["with a listed install script", "node", { hasInstallScript: true }],
  ])("%s is let in", (_what, name, entry) => {
    expect(problemsOf(name, entry)).toEqual([]);
  });

  test.each(["github:someone/planted", "file:../planted", "https://files.example/a.tgz", "*"])(
    "asked for as %s is told",
    (range) => {
      const problems = checkDependencies({ dependencies: { planted: range } }, { packages: {} });
      expect(problems).toEqual([`planted: "${range}" is no version or range of a registry`]);
    },
  );

  test("let run at the install without being listed is told", () => {
    expect(checkDependencies({ allowScripts: { planted: true } }, { packages: {} })).toHaveLength(
      1,
    );
  });
});
