// "Tables sort, filter, page and export": releases, and the models of the fleet.
import { uuidv7 } from "uuidv7";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { inFirm } from "../../src/db/scope.ts";
import { levelKey } from "../../src/domain/firmware/level-key.ts";
import { startService, type TestService } from "../support/app.ts";
import { postRelease, postTarget } from "../support/fleet.ts";
import {
  decoded,
  expectList,
  exported,
  ROWS,
  readPage,
  turned,
  walk,
} from "../support/list-walk.ts";
import { addModel, addSite } from "../support/stock.ts";

let service: TestService;
let siteId: string;
const SEVERITIES = ["safety", "important", "routine"] as const;
const shown = (cell: RegExp) => ({ cell, role: "manager" }) as const;

beforeAll(async () => {
  service = await startService({ now: () => new Date("2026-11-25T12:00:00Z") });
  siteId = (await addSite(service)).id;
  for (let index = 0; index < ROWS; index += 1) {
    const { id: modelId } = await addModel(service, { code: `REL-${turned(index)}` });
    const level = `${(index * 11) % ROWS}.0.0`;
    const made = await postRelease(service, { modelId, level, severity: SEVERITIES[index % 3]! });
    expect(made.status, made.text).toBe(201);
    await addUnits(modelId, index + 1, null);
  }
});
afterAll(() => service.stop());

/** Installed units of a level. */
async function addUnits(modelId: string, count: number, firmwareLevel: string | null) {
  const firmwareKey = firmwareLevel === null ? null : (levelKey("semver", firmwareLevel) ?? null);
  await inFirm(service.db, service.firm.firmId, (tx) =>
    tx.unit.createMany({
      data: Array.from({ length: count }, uuidv7).map((id) => ({
        ...{ firmId: tx.firmId, id, modelId, serial: id.slice(-12).toUpperCase() },
        ...{ state: "installed", siteId, firmwareLevel, firmwareKey },
      })),
    }),
  );
}

describe("releases", () => {
  test("are in order over their pages, filtered and exported", async () => {
    await expectList(service, {
      ...{ path: "/firmware/releases", role: "manager", column: "model" },
      cell: /<td><a href="\/product-models\/[^"]+">(REL-\d\d)</g,
      ...{ filter: "severity=safety&withdrawn=false", left: 15 },
    });
  });

  test("are in the order of levels, not of their texts, and of severities by weight", async () => {
    const level = /data-label="Level">(\d+)\.0\.0</g;
    const levels = await walk(service, "/firmware/releases?sort=level", shown(level));
    expect(levels).toEqual(Array.from({ length: ROWS }, (_, index) => String(index)));
    const severity = /data-label="Severity">(\w+)</g;
    const found = await walk(service, "/firmware/releases?sort=severity", shown(severity));
    expect([...new Set(found)]).toEqual([...SEVERITIES]);
  });

  test("of the last model are reached, the highest first, with the model's target", async () => {
    const { id: modelId } = await addModel(service, { code: "ZZ-LAST" });
    for (const level of ["1.9.0", "1.10.0"]) await postRelease(service, { modelId, level });
    await postTarget(service, { modelId, level: "1.2.0" }, "2026-12-01");
    const { text } = await readPage(service, `/firmware/releases?modelId=${modelId}`, "manager");
    const levels = [...text.matchAll(/data-label="Level">([\d.]+)/g)].map(([, level]) => level);
    expect(levels).toEqual(["1.2.0", "1.10.0", "1.9.0", "1.2.0"]);
    expect(text).toContain('<td>ZZ-LAST</td><td data-label="Where">everywhere</td>');
    const last = await walk(service, "/firmware/releases", shown(/>(ZZ-LAST)<\/a>/g));
    expect(last).toHaveLength(3);
    const none = `/firmware/releases?modelId=${modelId}&severity=safety`;
    expect((await readPage(service, none, "manager")).text).toContain('class="empty"');
  });
});

describe("the fleet's models", () => {
  test("are in order over their pages, filtered and exported", async () => {
    await expectList(service, {
      ...{ path: "/fleet", role: "manager", column: "code", filter: "code=rel-1", left: 10 },
      cell: /<a href="\/fleet\?model[^"]+#adoption"[^>]*>(REL-\d\d)</g,
    });
  });

  test("are in the order of their counts, as numbers", async () => {
    const units = shown(/href="\/units\?modelId=[^"]+">(\d+)<\/a><\/td>/g);
    const up = await walk(service, "/fleet?sort=units", units);
    expect(up.map(Number)).toEqual(Array.from({ length: ROWS }, (_, index) => index + 1));
    expect(await walk(service, "/fleet?sort=-units", units)).toEqual(up.toReversed());
  });

  test("beyond the first page are drawn too, and the table stays where it was", async () => {
    const { text } = await readPage(service, "/fleet?sort=-code", "manager");
    const next = decoded(/href="([^"]+)" rel="next"/.exec(text)?.[1] ?? "");
    expect(next).toMatch(/#models$/);
    const second = await readPage(service, next, "manager");
    const [, href] = /href="(\/fleet\?model[^"]+)"[^>]*>REL-00</.exec(second.text) ?? [];
    const drawn = await readPage(service, decoded(href ?? ""), "manager");
    expect(drawn.text).toContain("How releases of REL-00 spread over 1 unit");
    expect(drawn.text).toMatch(/aria-current="true">REL-00</);
  });

  test("of many levels have the highest told, and all of them exported", async () => {
    const { id } = await addModel(service, { code: "LEVELS" });
    for (let level = 0; level < 14; level += 1) await addUnits(id, 1, `${level}.0.0`);
    await addUnits(id, 2, "spring build");
    const { text } = await readPage(service, "/fleet?code=levels", "manager");
    expect(text).toMatch(/<td>13\.0\.0: 1, .*, 2\.0\.0: 1, <a [^>]+>3 more levels<\/a>/);
    const taken = await exported(service, "/fleet?code=levels", "manager");
    expect(taken.map(({ level, units }) => `${level} ${units}`)).toEqual([
      ...Array.from({ length: 14 }, (_, index) => `${13 - index}.0.0 1`),
      "spring build 2",
    ]);
    expect(await exported(service, "/fleet", "manager")).toHaveLength(ROWS + 15);
  });
});
