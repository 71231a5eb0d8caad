import { describe, expect, test } from "vitest";
import { checkNames } from "./names.ts";
import { ignoreRule } from "./project-files.ts";
import { checkWords } from "./words.ts";

describe("names", () => {
  test.each([
    ["src/web/pageRender.ts", "kebab-case"],
    ["src/Web/render.ts", "kebab-case"],
    ["src/web/page_render.ts", "kebab-case"],
    ["tests/support/Firm.test.ts", "kebab-case"],
    ["templates/pages/Jobs.hbs", "kebab-case"],
    ["src/web/utils.ts", '"utils"'],
    ["src/web/helpers/paging.ts", '"helpers"'],
    ["src/features/jobs/job-service.ts", '"service"'],
    ["src/features/jobs/manager.ts", '"manager"'],
    ["src/common/a.ts", '"common"'],
    ["tests/support/misc.ts", '"misc"'],
  ])("%s is found", (path, words) => {
    expect(checkNames([{ path, text: "" }]).join("\n")).toContain(words);
  });

  test.each([
    "src/features/jobs/close-out.ts",
    "src/tablet/service-worker.ts",
    "templates/pages/manager.hbs",
    "prisma/migrations/20260314092653_add_units/migration.sql",
    "src/db/generated/models/JobUnit.ts",
    "tests/data/C101.txt",
    "README.md",
  ])("%s is allowed", (path) => {
    expect(checkNames([{ path, text: "" }])).toEqual([]);
  });
});

// Written in pieces, or these lines would be found in this file.
const words = (...pieces: string[]) => pieces.join("");

describe("words", () => {
  test.each([
    [words("// TO", "DO: later")],
    [words("// FIX", "ME")],
    [words("cd /wo", "rk/main")],
    [words("see /ro", "ot/.cache")],
    [words('"/ho', 'me/someone"')],
    [words("https://regi", "stry.npm", "js.org/zod")],
    [words("https://registry", ".example.org/")],
    [words("https://www.npm", "js.com/package/zod")],
    [words("http://deb.", "debian.org/debian")],
  ])("%s is found, in any text file", (line) => {
    const found = checkWords([{ path: "docs/a.md", text: `fine\n${line}\n` }]);
    expect(found).toHaveLength(1);
    expect(found[0]).toContain("docs/a.md:2:");
  });

  test.each([
    "mastodon",
    "src/work/a.ts",
    "https://example.org/root/a",
    "registry.get(name)",
    "/homes",
  ])("%s is allowed", (line) => {
    expect(checkWords([{ path: "docs/a.md", text: line }])).toEqual([]);
  });
});

describe("what .gitignore leaves out", () => {
  const ignored = ignoreRule("# words\nnode_modules/\nsrc/db/generated/\n*.log\n.env\n");

  test.each([
    ["node_modules", true, true],
    ["a/node_modules", true, true],
    ["src/db/generated", true, true],
    ["b/src/db/generated", true, false],
    ["a.log", false, true],
    ["a/b.log", false, true],
    [".env", false, true],
    [".env.example", false, false],
    ["node_modules", false, false],
    ["src", true, false],
  ])("%s (a folder: %s) is left out: %s", (path, folder, expected) => {
    expect(ignored(path, folder)).toBe(expected);
  });

  test.each(["!keep.log", "a/**/b", "[ab].txt", "a*"])("the pattern %s is refused", (pattern) => {
    expect(() => ignoreRule(pattern)).toThrow("teach it in ignoreRule");
  });
});
