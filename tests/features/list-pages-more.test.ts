// "Tables sort, filter, page and export", for the lists of what was told, sent, released and is
// due: each in the order of a column over all its pages, with what its filter and export leave.
import { parse } from "csv-parse/sync";
import { uuidv7 } from "uuidv7";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { inFirm } from "../../src/db/scope.ts";
import { levelKey } from "../../src/domain/firmware/level-key.ts";
import { queueMail } from "../../src/features/mail/store.ts";
import { addNotice } from "../../src/features/notices/store.ts";
import type { Role } from "../../src/web/roles.ts";
import { startService, type TestService } from "../support/app.ts";
import { postRelease, postTarget } from "../support/fleet.ts";
import { addModel, addSite } from "../support/stock.ts";

let service: TestService;
const COUNT = 45;
const number = (index: number) => String(index).padStart(2, "0");
/** The order of entry is not the order of any column. */
const turned = (index: number) => number((index * 7) % COUNT);

beforeAll(async () => {
  service = await startService({ now: () => new Date("2026-11-25T12:00:00Z") });
  await addNoticesAndMails();
  await addReleases();
});
afterAll(() => service.stop());

const decoded = (text: string) => text.replaceAll("&amp;", "&").replaceAll("&#x3D;", "=");
const get = (path: string, role: Role) =>
  service.as(service.firm.people[role]).get(path).set("accept", "text/html");

/** What the cells of the list's rows match, over all its pages. */
async function walk(path: string, cell: RegExp, role: Role): Promise<string[]> {
  const found: string[] = [];
  for (let at: string | undefined = path; at; ) {
    const page = await get(at.replace(/#.*$/, ""), role);
    expect(page.status, at).toBe(200);
    found.push(...[...page.text.matchAll(cell)].map(([, text = ""]) => text));
    at = /<a class="button" href="([^"]+)" rel="next">/.exec(page.text)?.[1];
    at = at && decoded(at);
  }
  return found;
}

async function exported(path: string, role: Role): Promise<Record<string, string>[]> {
  const { text } = await get(path, role);
  const href = /class="export" href="([^"]+)" download>Export as CSV</.exec(text)?.[1];
  const taken = await get(decoded(href ?? ""), role);
  expect(taken.status, `${href} ${taken.text}`).toBe(200);
  return parse(taken.text, { columns: true, bom: true });
}

const dayAfter = (day: string, days: number): string =>
  new Date(Date.parse(day) + days * 86_400_000).toISOString().slice(0, 10);

async function addNoticesAndMails(): Promise<void> {
  const { firmId, people } = service.firm;
  for (let index = 0; index < COUNT; index += 1) {
    const at = turned(index);
    const kind = index % 3 === 0 ? "warranty-due" : "firmware-due";
    await inFirm(service.db, firmId, async (tx) => {
      const { id: mailId } = await queueMail(
        tx,
        {
          ...{ recipient: `r${at}@rook.example`, subject: `Mail ${number(index)}` },
          ...{ textBody: "Text", htmlBody: "<p>Text</p>", host: "holdpoint.example" },
          ...(index % 3 === 0 ? { kind: "visit-reminder" as const } : {}),
        },
        new Date(Date.UTC(2026, 9, 1, 9, Number(at))),
      );
      await addNotice(tx, {
        ...{ kind, day: dayAfter("2026-08-16", index), personId: people.office.id },
        ...{ contentSha256: "0".repeat(64), mailId, subject: `Notice ${at}`, body: "What is due" },
      });
    });
  }
}

const SEVERITIES = ["safety", "important", "routine"] as const;

/** A release of each of many models; the level is the number turned, so 9.0.0 is below 10.0.0. */
async function addReleases(): Promise<void> {
  for (let index = 0; index < COUNT; index += 1) {
    const { id: modelId } = await addModel(service, { code: `REL-${turned(index)}` });
    const wish = { modelId, level: `${(index * 11) % COUNT}.0.0` };
    await postRelease(service, { ...wish, severity: SEVERITIES[index % 3]! });
    await addUnits(modelId, index, { firmwareLevel: null, firmwareKey: null });
  }
}

let siteId = "";

/** One installed unit more than `more`, on record as nobody's work. */
async function addUnits(modelId: string, more: number, fields: object): Promise<void> {
  siteId ||= (await addSite(service)).id;
  await inFirm(service.db, service.firm.firmId, (tx) =>
    tx.unit.createMany({
      data: Array.from({ length: more + 1 }, () => {
        const id = uuidv7();
        const serial = id.slice(-12).toUpperCase();
        return { firmId: tx.firmId, id, modelId, serial, state: "installed", siteId, ...fields };
      }),
    }),
  );
}

interface List {
  path: string;
  role: Role;
  column: string;
  cell: RegExp;
  /** Rows over all pages. */
  all: number;
  filter: string;
  left: number;
}

const LISTS: readonly List[] = [
  {
    ...{ path: "/notices", role: "office", column: "subject", cell: /<summary>(Notice \d\d)/g },
    ...{ all: COUNT, filter: "kind=warranty-due", left: 15 },
  },
  {
    ...{ path: "/outbox", role: "manager", column: "recipient", cell: />(r\d\d)@rook/g },
    ...{ all: COUNT, filter: "state=waiting&kind=visit-reminder&recipient=ROOK.example", left: 15 },
  },
  {
    ...{ path: "/outbox", role: "office", column: "subject", cell: />(Mail \d\d)</g },
    ...{ all: COUNT, filter: "recipient=r1", left: 10 },
  },
  {
    ...{ path: "/firmware/releases", role: "manager", column: "model" },
    cell: /<td><a href="\/product-models\/[^"]+">(REL-\d\d)</g,
    ...{ all: COUNT, filter: "severity=safety&withdrawn=false", left: 15 },
  },
  {
    ...{ path: "/fleet", role: "manager", column: "code", all: COUNT },
    cell: /<a href="\/fleet\?model[^"]+#adoption"[^>]*>(REL-\d\d)</g,
    ...{ filter: "code=rel-1", left: 10 },
  },
];

describe.each(LISTS)("$path by $column", ({ path, role, column, cell, ...list }) => {
  test("is in order over its pages, and turned round", async () => {
    const up = await walk(`${path}?sort=${column}`, cell, role);
    const down = await walk(`${path}?sort=-${column}`, cell, role);
    expect(up).toHaveLength(list.all);
    expect(new Set(up).size).toBe(list.all);
    expect(up).toEqual(up.toSorted());
    expect(down).toEqual(up.toReversed());
  });

  test("shows what its filter leaves, over its pages, and exports as many", async () => {
    expect(await walk(`${path}?${list.filter}`, cell, role)).toHaveLength(list.left);
    expect(await exported(`${path}?${list.filter}`, role)).toHaveLength(list.left);
    const next = /href="([^"]+)" rel="next"/.exec((await get(path, role)).text)?.[1];
    expect(decoded(next ?? "")).toContain("sort=");
  });

  test("says what it is sorted by, and a click turns it round", async () => {
    const { text } = await get(`${path}?sort=${column}`, role);
    const head = /<th scope="col"[^>]* aria-sort="ascending"><a class="sort" href="([^"]+)"/;
    expect(decoded(head.exec(text)?.[1] ?? "")).toContain(`sort=-${column}`);
  });
});

test("days of notices are in the order of the calendar, not of their words", async () => {
  const shown = await walk("/notices?sort=-day", /<td class="kind">(\d+ \w+ 2026)</g, "office");
  const days = Array.from({ length: COUNT }, (_, index) => dayAfter("2026-08-16", index));
  expect(shown.map((day) => new Date(`${day} UTC`).toISOString().slice(0, 10))).toEqual(
    days.toReversed(),
  );
});

test("notices of a person who had none of a kind lead back to all", async () => {
  const { text } = await get("/notices?kind=warranty-due", "manager");
  expect(text).toContain('class="empty"');
  expect(text).toContain('href="/notices"');
  expect((await get("/notices", "installer")).text).not.toContain('class="export"');
});

test("the outbox is sorted by when a mail was written, and its states keep the other filters", async () => {
  const order = await walk("/outbox?sort=written", />(r\d\d)@rook/g, "office");
  expect(order).toEqual(order.toSorted());
  const { text } = await get("/outbox?kind=visit-reminder&recipient=r1", "office");
  expect(decoded(text)).toMatch(
    /href="\/outbox\?state=waiting&kind=visit-reminder&recipient=r1">Waiting <span class="small">\d</,
  );
  expect((await get("/outbox?state=failed", "office")).text).toContain('class="empty"');
});

describe("the releases' page", () => {
  const LEVEL = /data-label="Level">(\d+)\.0\.0</g;

  test("is in the order of the levels, not of their texts, and of severities by weight", async () => {
    const levels = await walk("/firmware/releases?sort=level", LEVEL, "manager");
    expect(levels).toEqual(Array.from({ length: COUNT }, (_, index) => String(index)));
    const weights = /data-label="Severity">(\w+)</g;
    const found = await walk("/firmware/releases?sort=severity", weights, "manager");
    expect([...new Set(found)]).toEqual([...SEVERITIES]);
  });

  test("has every model, with the levels of one from the highest on and its target", async () => {
    const model = await addModel(service, { code: "ZZ-LAST" });
    for (const level of ["1.9.0", "1.10.0"])
      await postRelease(service, { modelId: model.id, level });
    await postTarget(service, { modelId: model.id, level: "1.2.0" }, "2026-12-01");
    const { text } = await get(`/firmware/releases?modelId=${model.id}`, "manager");
    const levels = [...text.matchAll(/data-label="Level">([\d.]+)/g)].map(([, level]) => level);
    expect(levels).toEqual(["1.2.0", "1.10.0", "1.9.0", "1.2.0"]);
    expect(text).toContain('<td>ZZ-LAST</td><td data-label="Where">everywhere</td>');
    const last = await walk("/firmware/releases", />(ZZ-LAST)<\/a>/g, "manager");
    expect(last).toHaveLength(3);
    const none = await get(`/firmware/releases?modelId=${model.id}&severity=safety`, "manager");
    expect(none.text).toContain('class="empty"');
  });
});

describe("the fleet's models", () => {
  test("are in the order of their counts, as numbers", async () => {
    const units = /href="\/units\?modelId=[^"]+">(\d+)<\/a><\/td>/g;
    const up = (await walk("/fleet?sort=units", units, "manager")).map(Number);
    expect(up).toEqual(Array.from({ length: COUNT }, (_, index) => index + 1));
    expect((await walk("/fleet?sort=-units", units, "manager")).map(Number)).toEqual(
      up.toReversed(),
    );
  });

  test("beyond the first page are drawn too, and the table stays where it was", async () => {
    const { text } = await get("/fleet?sort=-code", "manager");
    const next = decoded(/href="([^"]+)" rel="next"/.exec(text)?.[1] ?? "");
    expect(next).toMatch(/#models$/);
    const second = await get(next.replace(/#.*/, ""), "manager");
    const href = decoded(/href="(\/fleet\?model[^"]+)"[^>]*>REL-00</.exec(second.text)?.[1] ?? "");
    const drawn = await get(href.replace(/#.*/, ""), "manager");
    expect(drawn.text).toContain("How releases of REL-00 spread over 1 unit");
    expect(drawn.text).toMatch(/aria-current="true">REL-00</);
  });

  test("of many levels have the highest told, and all of them exported", async () => {
    const { id } = await addModel(service, { code: "LEVELS", firmwareScheme: "semver" });
    for (let index = 0; index < 14; index += 1) {
      const firmwareLevel = `${index}.0.0`;
      const firmwareKey = levelKey("semver", firmwareLevel) ?? null;
      await addUnits(id, 0, { firmwareLevel, firmwareKey });
    }
    await addUnits(id, 1, { firmwareLevel: "spring build", firmwareKey: null });
    const { text } = await get("/fleet?code=levels", "manager");
    expect(text).toMatch(/<td>13\.0\.0: 1, 12\.0\.0: 1,.*2\.0\.0: 1, <a [^>]+>3 more levels<\/a>/);
    const taken = await exported("/fleet?code=levels", "manager");
    expect(taken.map(({ level, units }) => `${level} ${units}`)).toEqual([
      ...Array.from({ length: 14 }, (_, index) => `${13 - index}.0.0 1`),
      "spring build 2",
    ]);
    const all = await exported("/fleet", "manager");
    expect(all).toHaveLength(COUNT + 15);
  });
});
