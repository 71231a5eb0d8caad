import { describe, expect, test } from "vitest";
import { checkCycles } from "./cycles.ts";
import { checkDatabaseAccess } from "./database-access.ts";
import { checkDirections } from "./directions.ts";
import { checkDoors } from "./doors.ts";

const file = (path: string, ...lines: string[]) => ({ path, text: lines.join("\n") });

describe("directions", () => {
  test.each([
    ["src/domain/plan/a.ts", 'import { b } from "../../web/b.ts";', "domain may not import web"],
    ["src/domain/plan/a.ts", 'import type { B } from "../../db/b.ts";', "domain may not import db"],
    ["src/domain/plan/a.ts", 'import { join } from "node:path";', "may not import node:path"],
    ["src/domain/plan/a.ts", 'import fastify from "fastify";', "may not import fastify"],
    ["src/domain/plan/a.ts", 'export * from "../../errors.ts";', "domain may not import ground"],
    ["src/domain/plan/a.ts", 'const b = await import("../../app.ts");', "may not import app"],
    ["src/domain/plan/a.ts", 'type B = import("../../app.ts").B;', "domain may not import app"],
    [
      "src/web/a.ts",
      'import { b } from "../features/jobs/store.ts";',
      "web may not import features",
    ],
    ["src/db/a.ts", 'import type { B } from "../features/jobs/types.ts";', "db may not import"],
    ["src/db/a.ts", 'import { b } from "../web/b.ts";', "db may not import web"],
    ["src/config.ts", 'import { b } from "./db/b.ts";', "ground may not import db"],
    ["src/features/jobs/a.ts", 'import { b } from "../../app.ts";', "features may not import app"],
    ["src/features/jobs/a.ts", 'import { b } from "../../runs/b.ts";', "may not import runs"],
    ["src/features/jobs/a.ts", 'import { b } from "../sites/routes.ts";', "routes and pages"],
    ["src/features/jobs/a.ts", 'import type { B } from "../sites/pages.ts";', "routes and pages"],
    ["src/runs/a.ts", 'import { b } from "../features/sites/routes.ts";', "routes and pages"],
    ["src/runs/a.ts", 'import { b } from "../main.ts";', "runs may not import main"],
    ["src/tablet/a.ts", 'import { b } from "../features/jobs/store.ts";', "schemas only"],
    ["src/tablet/a.ts", 'import { b } from "../web/b.ts";', "tablet may not import web"],
    ["src/tablet/a.ts", 'import { say } from "../language/say.ts";', "its own texts only"],
    ["src/tablet/a.ts", 'import { EN } from "../language/english.ts";', "its own texts only"],
    ["src/tablet/a.ts", 'import fastify from "fastify";', "tablet may not import fastify"],
    ["src/app.ts", 'import { b } from "./main.ts";', "app may not import main"],
    ["src/main.ts", 'import { b } from "../tests/support/b.ts";', "src may not import tests"],
    ["src/extras/a.ts", "export {};", "belongs to no layer"],
    ["src/secrets.ts", 'import { b } from "./app.ts";', "ground may not import app"],
  ])("%s with %s is found", (path, line, words) => {
    const found = checkDirections([file(path, "", line)]);
    expect(found).toHaveLength(1);
    expect(found[0]).toContain(words);
    expect(found[0]).toContain(
      words.includes("layer") && !words.includes("import") ? ":1:" : ":2:",
    );
  });

  test.each([
    ["src/domain/plan/a.ts", 'import { z } from "zod"; import { b } from "../quantities/b.ts";'],
    ["src/features/jobs/routes.ts", 'import { b } from "./pages.ts"; import f from "fastify";'],
    ["src/features/jobs/a.ts", 'import { b } from "../sites/store.ts";'],
    ["src/features/jobs/a.ts", 'import { b } from "../sites/schemas.ts";'],
    ["src/features/jobs/a.ts", 'import type { B } from "../sites/merge.ts";'],
    ["src/runs/a.ts", 'import { b } from "../features/firmware/due-store.ts";'],
    ["src/tablet/a.ts", 'import { b } from "../features/jobs/schemas.ts";'],
    ["src/tablet/a.ts", 'import { T } from "../language/tablet-english.ts";'],
    ["src/tablet/a.ts", 'const b = await import("../language/tablet-spanish.ts");'],
    ["src/tablet/a.ts", 'import { plainMessage } from "../language/message.ts";'],
    ["src/app.ts", 'import { b } from "./features/jobs/routes.ts";'],
    ["src/access.ts", 'import { b } from "./web/b.ts";'],
    ["src/main.ts", 'import { b } from "./app.ts"; import { c } from "./runs/c.ts";'],
    ["tests/a.test.ts", 'import { b } from "../src/main.ts";'],
  ])("%s with %s is allowed", (path, line) => {
    expect(checkDirections([file(path, line)])).toEqual([]);
  });
});

describe("database access", () => {
  test.each([
    ["src/features/jobs/routes.ts", 'import { db } from "../../db/client.ts";', "only types"],
    ["src/features/jobs/close.ts", "await tx.job.update({ where });", "queries stand"],
    ["src/web/keys.ts", "await handle.job.findUniqueOrThrow({ where });", "queries stand"],
    ["src/web/paging.ts", 'import { db } from "../db/client.ts";', "only types"],
    ["src/features/jobs/routes.ts", 'import pg from "pg";', "store files import pg"],
    ["src/runs/a.ts", 'import type { Job } from "../db/generated/client.ts";', "generated client"],
    ["src/app.ts", 'import { PrismaPg } from "@prisma/adapter-pg";', "import @prisma/adapter-pg"],
    ["src/features/jobs/close.ts", "const a = await db.$queryRaw`x`;", "SQL stands"],
    ["src/features/jobs/close.ts", 'const a = "select id from job where x";', "SQL stands"],
    ["src/features/jobs/close.ts", "const a = `UPDATE job SET a = 1`;", "SQL stands"],
    ["src/features/jobs/close.ts", "const a = `\n insert into job values (1)`;", "SQL stands"],
  ])("%s with %s is found", (path, line, words) => {
    const found = checkDatabaseAccess([file(path, line)]);
    expect(found.join("\n")).toContain(words);
  });

  test.each([
    [
      "src/features/jobs/store.ts",
      'import { db } from "../../db/client.ts"; const a = "select 1 from b";',
    ],
    ["src/web/session-store.ts", 'import { Prisma } from "../db/generated/client.ts";'],
    ["src/features/jobs/routes.ts", 'import type { FirmScope } from "../../db/scope.ts";'],
    ["src/main.ts", 'import { connect } from "./db/client.ts";'],
    ["src/features/jobs/routes.ts", 'import { inFirm } from "../../db/scope.ts";'],
    ["src/features/jobs/close.ts", 'import { transactionQuery } from "../../db/query.ts";'],
    ["src/features/jobs/close.ts", "list.find(a); hash.update(b); rows.count(); Object.create(c);"],
    ["src/features/jobs/pages.ts", 'const a = "Select a plan from the list, then save.";'],
  ])("%s with %s is allowed", (path, line) => {
    expect(checkDatabaseAccess([file(path, line)])).toEqual([]);
  });
});

describe("circles", () => {
  test("a circle of three, by a type even, is found with its way round", () => {
    const found = checkCycles([
      file("src/domain/a.ts", 'import { b } from "./b.ts";'),
      file("src/domain/b.ts", 'export { c } from "./c/c.ts";'),
      file("src/domain/c/c.ts", 'import type { A } from "../a.ts";'),
    ]);
    expect(found).toHaveLength(1);
    expect(found[0]).toContain(
      "src/domain/a.ts → src/domain/b.ts → src/domain/c/c.ts → src/domain/a",
    );
  });

  test("a file that imports itself is found", () => {
    expect(checkCycles([file("src/a.ts", 'import { a } from "./a.ts";')])).toHaveLength(1);
  });

  test("two ways to one file are no circle", () => {
    expect(
      checkCycles([
        file("src/a.ts", 'import "./b.ts"; import "./c.ts";'),
        file("src/b.ts", 'import "./d.ts";'),
        file("src/c.ts", 'import "./d.ts";'),
        file("src/d.ts", "export {};"),
      ]),
    ).toEqual([]);
  });
});

describe("doors", () => {
  const door = file("src/domain/plan/index.ts", 'export { a } from "./a.ts";');

  test("an import past an index.ts from outside is found, one from inside is not", () => {
    const past = file("src/app.ts", 'import { a } from "./domain/plan/a.ts";');
    const through = file("src/main.ts", 'import { a } from "./domain/plan/index.ts";');
    const other = file("src/domain/site/site-index.ts", "export {};");
    const inside = file("src/domain/plan/b.ts", 'import { a } from "./a.ts";');
    const found = checkDoors([door, past, through, other, inside]);
    expect(found).toHaveLength(1);
    expect(found[0]).toContain("src/app.ts:1: imports past the door");
  });

  test.each([
    [40, 0],
    [41, 1],
  ])("a door of %d lines has %d problems", (count, problems) => {
    const text = "export {};\n".repeat(count);
    expect(checkDoors([{ path: "src/domain/plan/index.ts", text }])).toHaveLength(problems);
  });
});
