// "Tables sort, filter, page and export": what each list page shows in the order of a column, over
// all its pages, and what its filter and its export leave.
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { type Client, startService, type TestService } from "../support/app.ts";
import { readPage, takeExport, walkList } from "../support/list-pages.ts";
import { addModel, receive } from "../support/stock.ts";

let service: TestService;
let office: Client;
let owner: Client;
const COUNT = 45;
const number = (index: number) => String(index).padStart(2, "0");

beforeAll(async () => {
  service = await startService();
  office = service.as(service.firm.people.office);
  owner = service.as(service.firm.people.owner);
  await fill();
});
afterAll(() => service.stop());

async function fill(): Promise<void> {
  const model = await addModel(service, { code: "AA-FIRST", serialMask: "FS#{4}" });
  for (let index = 0; index < COUNT; index += 1) {
    const at = number(index);
    // The order of entry is not the order of any column.
    const turned = number((index * 7) % COUNT);
    const kind = index % 2 === 0 ? "work" : "audit";
    await ok(
      office.post("/api/v1/nonconformances").send({
        ...{ kind, title: `Finding ${turned}`, dueOn: `2027-01-${number((index % 28) + 1)}` },
      }),
    );
    await ok(
      office.post("/api/v1/consumables").send({
        ...{ code: `BOLT-${turned}`, name: `Bolt ${at}`, countedIn: "piece", leastAmount: 1 },
      }),
    );
    await ok(
      owner.post("/api/v1/people").send({
        ...{ email: `p${turned}@alder.example`, name: `Person ${turned}` },
        ...{ roles: index % 2 === 0 ? ["manager"] : ["installer"], password: PASSWORD },
      }),
    );
    if (index < COUNT - 1) {
      await addModel(service, { code: `MM-${turned}`, name: `Model ${at}`, kind: "inverter" });
    }
    await receive(service, model.id, { serial: `FS${String(5000 + ((index * 7) % COUNT))}` });
  }
}
const PASSWORD = "forty larches in a windy row";

async function ok(reply: PromiseLike<{ status: number; text: string }>): Promise<void> {
  const { status, text } = await reply;
  expect(status, text).toBe(201);
}

const LISTS = [
  ["/people", "name", /<td>(?:<a [^>]*>)?(Person \d\d)/g, "?name=person%201", 10],
  ["/product-models", "code", /<td><a [^>]*>(MM-\d\d)/g, "?kind=inverter", 44],
  ["/nonconformances", "due", /data-label="Due on">([^<]+)</g, "?kind=audit", 22],
  ["/goods-in/stock", "serial", /<td><a href="\/units\/[^>]*>(FS\d{4})/g, "?serial=fs503", 10],
  ["/goods-in/consumables", "code", /<td><a [^>]*>(BOLT-\d\d)/g, "?code=bolt-1", 10],
] as const;

describe.each(LISTS)("%s", (path, column, cell, filter, count) => {
  const of = () => (path === "/people" ? owner : office);

  test(`is in the order of ${column} over its pages, and turned round`, async () => {
    const up = await walkList(of(), `${path}?sort=${column}`, cell);
    const down = await walkList(of(), `${path}?sort=-${column}`, cell);
    expect(up.length).toBeGreaterThanOrEqual(COUNT - 1);
    expect(new Set(up).size).toBeGreaterThan(27);
    const inOrder = up.map(asSorted).toSorted();
    expect(up.map(asSorted)).toEqual(inOrder);
    expect(down.map(asSorted)).toEqual(inOrder.toReversed());
  });

  test("shows what its filter leaves, and its export holds as many", async () => {
    const shown = await walkList(of(), `${path}${filter}`, cell);
    expect(shown).toHaveLength(count);
    expect(await takeExport(of(), `${path}${filter}`)).toHaveLength(count);
  });

  test("says so where nothing fits, and leads back", async () => {
    const nothing = { "/nonconformances": "?state=closed", "/people": "?name=nobody-here" };
    const query =
      nothing[path as keyof typeof nothing] ?? `?${filter.slice(1).split("=")[0]}=isolator`;
    const page = await readPage(of(), `${path}${query}`);
    expect(page.status).toBe(200);
    expect(page.text).toContain('class="empty"');
    expect(page.text).toContain(`href="${path}"`);
  });
});

const MONTHS: Readonly<Record<string, string>> = { Jan: "01" };
/** A day as the page says it, in a form that sorts. */
const asSorted = (text: string): string =>
  text.replace(/^(\d{1,2}) (\w{3}) (\d{4})$/, (_all, day: string, month: string, year: string) =>
    [year, MONTHS[month], day.padStart(2, "0")].join("-"),
  );
