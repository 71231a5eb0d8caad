// What goes into production (OWASP ASVS 5.0.0, V15.2.3 and V13.4.1), read off the files that the
// image is built by; that it builds and starts is tried where there is Docker, not here.
import { readFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { expect, test } from "vitest";
import { importsOf } from "../tidy/imports.ts";
import { readProjectFiles } from "../tidy/project-files.ts";
import { isCode } from "../tidy/syntax.ts";

const ROOT = dirname(dirname(import.meta.dirname));
const read = (path: string) => readFileSync(join(ROOT, path), "utf8");
const stages = read("Dockerfile")
  .split(/^FROM /m)
  .slice(1);
const last = stages.at(-1)!;
const ignored = read(".dockerignore")
  .split("\n")
  .filter((line) => line !== "" && !line.startsWith("#"));

test("the image holds what is served, and nothing but the program beside its packages", () => {
  expect(stages).toHaveLength(2);
  const copied = [...last.matchAll(/^COPY (?:--from=build )?(.+)$/gm)].map(([, what]) => what);
  expect(copied).toEqual([
    "/app/package.json /app/package-lock.json ./",
    "prisma/migrations prisma/migrations",
    "templates templates",
    "src src",
    "/app/src/db/generated src/db/generated",
  ]);
  expect(stages[0]).toContain("npm pkg delete devDependencies");
  expect(last).toMatch(/^RUN npm ci --omit=dev --ignore-scripts/m);
  expect(last).toContain("NODE_ENV=production");
  expect(last).toMatch(/^USER node$/m);
});

test("what is not named stays out of it: tests, source control, secrets, what only plays", () => {
  expect(ignored[0]).toBe("*");
  const letIn = ignored.filter((line) => line.startsWith("!")).map((line) => line.slice(1));
  expect(letIn).toEqual([
    ...["package.json", "package-lock.json", "prisma.config.ts", "prisma", "src", "templates"],
  ]);
  expect(ignored.slice(ignored.indexOf("!templates") + 1)).toEqual([
    "src/db/generated",
    "src/walkthrough",
  ]);
});

test("nothing that is served needs a development package or what was left out", () => {
  const { devDependencies } = JSON.parse(read("package.json")) as {
    devDependencies: Record<string, string>;
  };
  const served = readProjectFiles(ROOT).filter(
    ({ path }) => /^src\/(?!walkthrough\/)/.test(path) && isCode(path),
  );
  expect(served.length).toBeGreaterThan(1000);
  const imports = served.flatMap((file) =>
    importsOf(file).map(({ package: name, file: to = "", typeOnly }) => ({
      ...{ from: file.path, to, typeOnly },
      name: name ?? "",
    })),
  );
  const wrong = imports.filter(
    ({ name, to, typeOnly }) =>
      !typeOnly && (name in devDependencies || /^(?:src\/walkthrough|tests|bench)\//.test(to)),
  );
  expect(wrong).toEqual([]);
});
