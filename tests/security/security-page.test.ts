// docs/security.md says what the code does, and the code bounds nothing that it leaves out (OWASP
// ASVS 5.0.0, V2.1, V5.1.1, V7.1, V13.1.1, V15.1.1 and V15.1.3).
import { existsSync } from "node:fs";
import { dirname, join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { SETTINGS } from "../../src/config.ts";
import { startService, type TestService } from "../support/app.ts";
import { readProjectFiles } from "../tidy/project-files.ts";
import { quoted, tableRows } from "./security-page/page-tables.ts";
import { boundsOf, inCode, stated } from "./security-page/stated-limits.ts";

const ROOT = dirname(dirname(import.meta.dirname));
const files = readProjectFiles(ROOT);
const fileAt = (path: string) => {
  const file = files.find((each) => each.path === path);
  if (!file) throw new Error(`docs/security.md names ${path}, which is not there`);
  return file;
};

const FILES = tableRows("Files that are taken");
const [uploads, inside] = [
  FILES.filter((cells) => cells.length === 5),
  FILES.filter((cells) => cells.length === 3),
];
const limits: [what: string, value: string, place: string][] = [
  ...tableRows("Sessions, keys and links").map(([what, value, , place]) => [what, value, place]),
  ...tableRows("Limits"),
  ...uploads.map(([what, , value, place]) => [what, value, place]),
  ...inside,
] as never;

describe("a limit", () => {
  test.each(limits)("%s: %s is the code's own", (_what, value, place) => {
    const [name = "", path = ""] = quoted(place);
    expect(stated(value, name)).toBe(inCode(fileAt(path), name));
  });

  test("of size, pace or time is on the page, wherever the code has one", () => {
    const told = limits.map(([, , place]) => quoted(place).join(" in "));
    const elsewhere = tableRows("What it connects to").flatMap((cells) => quoted(cells[4]!));
    const untold = boundsOf(files).filter(
      (bound) =>
        !told.includes(bound) && !elsewhere.some((place) => bound.endsWith(` in ${place}`)),
    );
    expect(boundsOf(files).length).toBeGreaterThan(20);
    expect(untold).toEqual([]);
  });
});

describe("files that are taken", () => {
  let service: TestService;
  beforeAll(async () => {
    service = await startService();
  });
  afterAll(() => service.stop());

  test("are those of the interface, each with its types", async () => {
    const { paths } = (await service.anonymous.get("/openapi.json")).body;
    const taking = Object.values(paths as Record<string, Record<string, Operation>>)
      .flatMap((verbs) => Object.values(verbs))
      .map(({ operationId, requestBody }): [string, string[]] => [
        operationId,
        Object.keys(requestBody?.content ?? {}).filter((type) => type !== "application/json"),
      ])
      .filter(([, types]) => types.length > 0);
    // Read as a stream, so that the document names the types in words alone.
    const streamed = ["putImportFile"];
    const told = uploads.map(([operation = "", types = ""]) => [
      quoted(operation)[0],
      quoted(types).sort(),
    ]);
    const wanted = taking.map(([operation, types]) => [operation, types.sort()]);
    expect(told.filter(([name]) => !streamed.includes(name as string)).sort()).toEqual(
      wanted.sort(),
    );
    const steps = fileAt("src/features/imports/step-routes.ts").text;
    const types = quoted(uploads.find(([name]) => name === "`putImportFile`")![1]!);
    expect(steps).toContain(`const TYPES = ${JSON.stringify(types).replaceAll(",", ", ")};`);
  });
});

interface Operation {
  operationId: string;
  requestBody?: { content: object };
}

describe("what it connects to", () => {
  const rows = tableRows("What it connects to");
  const REACHES =
    /\bfetch\(|createTransport\(|from "(?:node:(?:https?|net|tls|dgram|dns)|pg|pg-boss|s3mini)"/;

  test("is what the code has a way to, and nothing else", () => {
    const places = rows.flatMap((cells) => quoted(cells[4]!));
    const reaching = files
      .filter(({ path }) => /^src\/(?!tablet\/|check\/|walkthrough\/|db\/generated\/)/.test(path))
      .filter(({ text }) => REACHES.test(text))
      .map(({ path }) => path);
    expect(reaching.length).toBeGreaterThan(10);
    const isTold = (path: string) => places.some((place) => path.startsWith(place));
    expect(reaching.filter((path) => !isTold(path))).toEqual([]);
    for (const place of places) {
      expect(
        reaching.some((path) => path.startsWith(place)),
        place,
      ).toBe(true);
    }
  });

  test("is set by settings that there are, and no setting with an address is left out", () => {
    const named = rows.flatMap((cells) => quoted(cells[1]!));
    expect(named.filter((name) => !(name in SETTINGS.shape))).toEqual([]);
    const addresses = Object.keys(SETTINGS.shape).filter((name) => name.endsWith("_URL"));
    // The same server for another role, one that follows it, and the service's own address.
    const others = ["DATABASE_OWNER_URL", "DATABASE_REPLICA_URL", "PUBLIC_URL"];
    expect([...named, ...others].sort()).toEqual(addresses.sort());
  });
});

test("every rule of what has to fit together is shown by a test that there is", () => {
  const rules = tableRows("What has to fit together").map(([rule, shown]) => {
    const [path = "", name = ""] = quoted(shown!)[0]!.split(" › ");
    return [rule, existsSync(join(ROOT, path)) && fileAt(path).text.includes(name)];
  });
  expect(rules.length).toBeGreaterThan(10);
  expect(rules.filter(([, isShown]) => !isShown)).toEqual([]);
});

test("every scheduled work is told with its bounds", () => {
  const runs = files
    .filter(({ path }) => path.startsWith("src/runs/"))
    .flatMap(({ text }) => [...text.matchAll(/^\s+name: "([a-z-]+)",\n\s+cron:/gm)])
    .map(([, name]) => name!);
  const told = tableRows("What takes long, and what could do harm").flatMap(([what]) =>
    quoted(what!),
  );
  expect(runs.length).toBeGreaterThan(10);
  expect(runs.filter((name) => !told.includes(name))).toEqual([]);
});

test("each severity of a known fault has its days, the worse the fewer", () => {
  const days = tableRows("What others wrote").map(([, within]) => stated(within!, "DAYS"));
  expect(days).toHaveLength(4);
  expect(days).toEqual(days.toSorted((left, right) => left - right));
});
