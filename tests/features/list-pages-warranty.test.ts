// "Tables sort, filter, page and export": the days of the warranty calendar. A unit has two days
// there, and here both are the same one.
import { uuidv7 } from "uuidv7";
import { afterAll, beforeAll, expect, test } from "vitest";
import { inFirm } from "../../src/db/scope.ts";
import { addPeriod } from "../../src/domain/dates/period.ts";
import { startService, type TestService } from "../support/app.ts";
import { exported, ROWS, readPage, turned, walk } from "../support/list-walk.ts";
import { addModel, addSite } from "../support/stock.ts";

let service: TestService;
const PATH = "/warranty/calendar";
const FIRST_DAY = "2026-01-10";
const office = (cell: RegExp) => ({ cell, role: "office" }) as const;
const DAY = office(/<td>(\d+ \w+ \d{4})<\/td>\s+<td data-label="What">/g);
/** The rest of a row, which tells the kind and the unit. */
const ROW = office(/<td data-label="What">([\s\S]*?>WD\d\d<)/g);
const isoDay = (day: string): string => new Date(`${day} UTC`).toISOString().slice(0, 10);

beforeAll(async () => {
  service = await startService({ now: () => new Date("2026-11-25T12:00:00Z") });
  const { id: modelId } = await addModel(service, { code: "YEAR-ONE" });
  const { id: siteId } = await addSite(service, { timeZone: "UTC" });
  await inFirm(service.db, service.firm.firmId, async (tx) => {
    const { firmId } = tx;
    const terms = { number: 1, appliesFrom: new Date("2000-01-01"), years: 1 };
    const more = { evidenceNeeded: false, endMovesToWorkingDay: false };
    const createdById = service.firm.people.manager.id;
    await tx.warrantyTerms.create({
      data: {
        ...{ firmId, id: uuidv7(), modelId, ...terms, ...more, createdById },
        // As long as the year that the warranty lasts.
        registerWithinDays: 365,
      },
    });
    for (let index = 0; index < ROWS; index += 1) {
      const unitId = uuidv7();
      const serial = `WD${turned(index)}`;
      const unit = { firmId, id: unitId, modelId, siteId, serial, state: "installed" };
      await tx.unit.create({ data: unit });
      const at = new Date(`${addPeriod("2025-01-10", { days: index })}T10:00:00Z`);
      const event = { firmId, id: uuidv7(), unitId, siteId, kind: "installed", at };
      await tx.unitEvent.create({ data: event });
    }
  });
});
afterAll(() => service.stop());

test.each(["day", "kind", "serial", "site"])(
  "by %s every day of both kinds is shown once over the pages, and turned round",
  async (column) => {
    const up = await walk(service, `${PATH}?sort=${column}`, ROW);
    expect(up).toHaveLength(2 * ROWS);
    expect(new Set(up).size).toBe(2 * ROWS);
    expect(await walk(service, `${PATH}?sort=-${column}`, ROW)).toEqual(up.toReversed());
  },
);

test("days are in the order of the calendar unasked, serials in their own", async () => {
  const days = (await walk(service, PATH, DAY)).map(isoDay);
  const expected = Array.from({ length: ROWS }, (_, index) => {
    const day = addPeriod(FIRST_DAY, { days: index });
    return [day, day];
  });
  expect(days).toEqual(expected.flat());
  const serials = await walk(service, `${PATH}?sort=serial`, office(/>(WD\d\d)</g));
  expect(serials).toEqual(serials.toSorted());
});

test.each([
  ["year=2026&kind=register", ROWS],
  ["month=2026-01", 44],
  ["month=2026-02&kind=ends&sort=-serial", 23],
])("%s leaves %d days, and its export has as many", async (query, left) => {
  expect(await walk(service, `${PATH}?${query}`, ROW)).toHaveLength(left);
  const taken = await exported(service, `${PATH}?${query}`, "office");
  expect(taken).toHaveLength(left);
  const [first] = taken;
  expect([first?.model, first?.day?.slice(0, 7)]).toEqual([
    "YEAR-ONE",
    query.includes("-02") ? "2026-02" : "2026-01",
  ]);
});

test("the links of the list lead back to it, and one without days says so", async () => {
  const { text } = await readPage(service, PATH, "office");
  expect(text).toMatch(/class="sort" href="[^"]+#days"/);
  const none = await readPage(service, `${PATH}?year=2031&kind=ends`, "office");
  expect(none.text).toContain('class="empty"');
  expect(none.text).toContain(`href="${PATH}?year=2031#days"`);
});

test("leads from year to year, and no further than it goes", async () => {
  const years = async (year: number) => {
    const { status, text } = await readPage(service, `${PATH}?year=${year}`, "office");
    expect(status).toBe(200);
    return [...text.matchAll(/href="\/warranty\/calendar\?year=(\d{4})"/g)].map(([, to]) => to);
  };
  expect(await years(2030)).toEqual(["2029", "2031"]);
  expect(await years(1990)).toEqual(["1991"]);
  expect(await years(2150)).toEqual(["2149"]);
});
