// What the source does in one place alone, or nowhere (OWASP ASVS 5.0.0, V1.2.5, V1.3.2 and
// V16.2.3).
import { execFileSync } from "node:child_process";
import { dirname, join } from "node:path";
import { expect, test } from "vitest";
import { importsOf } from "../tidy/imports.ts";
import { readProjectFiles } from "../tidy/project-files.ts";
import { isCode, syntaxOf, walk } from "../tidy/syntax.ts";

const ROOT = dirname(dirname(import.meta.dirname));
const served = readProjectFiles(ROOT).filter(
  ({ path }) => /^src\/(?!db\/generated\/)/.test(path) && isCode(path),
);
const importing = (...names: string[]) =>
  served
    .filter((file) =>
      importsOf(file).some(
        ({ package: name, typeOnly }) => !typeOnly && names.includes(name ?? ""),
      ),
    )
    .map(({ path }) => path);

test("no code is made of text", () => {
  expect(served.length).toBeGreaterThan(1000);
  const making: string[] = [];
  for (const file of served) {
    walk(syntaxOf(file), (node) => {
      const callee = (node as { callee?: { type: string; name?: string } }).callee;
      if (callee?.type !== "Identifier") return;
      if (["eval", "Function"].includes(callee.name ?? "")) making.push(file.path);
    });
  }
  expect(making).toEqual([]);
  expect(importing("node:vm", "vm")).toEqual([]);
});

test("programs of the operating system are started for the embedded database alone", () => {
  const starting = importing("node:child_process", "child_process");
  expect(starting.length).toBeGreaterThan(0);
  expect(starting.filter((path) => !path.startsWith("src/db/embedded/"))).toEqual([]);
});

test("the log has one maker, and is written to the standard output, a JSON object a line", () => {
  expect(importing("pino", "pino-pretty").filter((path) => path !== "src/web/log.ts")).toEqual([]);
  const file = JSON.stringify(join(ROOT, "src/web/log.ts"));
  const play = `const { openLog } = await import(${file});
    const log = openLog("info"); log.info({ at: "one" }, "first"); log.debug("none");
    log.error({ err: new Error("broken") }, "second");`;
  const output = execFileSync(process.execPath, ["--input-type=module", "-e", play], {
    encoding: "utf8",
  });
  const entries = output
    .trimEnd()
    .split("\n")
    .map((line) => JSON.parse(line));
  expect(entries.map(({ msg }) => msg)).toEqual(["first", "second"]);
  expect(entries[1].err.message).toBe("broken");
});
