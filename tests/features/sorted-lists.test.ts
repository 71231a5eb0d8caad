// "Tables sort, filter, page and export": the lists of what comes in, goes out and is looked at, in
// the order of a column over all their pages, and what their filters and exports leave.
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { type Client, startService, type TestService } from "../support/app.ts";
import { heads, readPage, takeExport, walkList } from "../support/list-pages.ts";

let service: TestService;
let office: Client;
let owner: Client;
const COUNT = 45;
const number = (index: number) => String(index).padStart(2, "0");

beforeAll(async () => {
  service = await startService();
  office = service.as(service.firm.people.office);
  owner = service.as(service.firm.people.owner);
  for (let index = 0; index < COUNT; index += 1) await addRows(index);
});
afterAll(() => service.stop());

async function addRows(index: number): Promise<void> {
  // The order of entry is not the order of any column.
  const turned = number((index * 7) % COUNT);
  const isEven = index % 2 === 0;
  const kind = isEven ? "customers" : "units";
  await ok(office.post("/api/v1/imports").send({ kind, fileName: `rows-${turned}.csv` }));
  const key = { name: `Program ${turned}`, scopes: ["read:fleet"] };
  const { id } = await ok(owner.post("/api/v1/api-keys").send(key));
  if (isEven) await ok(owner.post(`/api/v1/api-keys/${id}/revocation`));
}

type Reply = PromiseLike<{ status: number; text: string; body: { id: string } }>;

async function ok(reply: Reply): Promise<{ id: string }> {
  const { status, text, body } = await reply;
  expect(status, text).toBe(201);
  return body;
}

const LISTS = [
  ["/imports", "file", /<a class="long" [^>]*>(rows-\d\d)/g, "kind=units", 22, "state=failed"],
  ["/api-keys", "name", /<td>(Program \d\d)/g, "standing=inUse", 22, "standing=over"],
] as const;

describe.each(LISTS)("%s", (path, column, cell, filter, count, nothing) => {
  // Keys are the owner's to see.
  const reader = () => (path === "/api-keys" ? owner : office);

  test(`is in the order of ${column} over its pages`, async () => {
    const up = await walkList(reader(), `${path}?sort=${column}`, cell);
    expect(new Set(up).size).toBe(COUNT);
    expect(up).toEqual(up.toSorted());
  });

  test("each head turns the whole list round, every row once, and keeps the filter", async () => {
    const sorts = [];
    for (const { href, sort } of await heads(reader(), `${path}?${filter}`)) {
      expect(href).toContain(filter);
      sorts.push(sort);
    }
    expect(sorts.length).toBeGreaterThan(1);
    for (const sort of sorts) {
      const there = await walkList(reader(), `${path}?sort=${sort}`, cell);
      const back = await walkList(reader(), `${path}?sort=-${sort}`, cell);
      expect(new Set(there).size, sort).toBe(COUNT);
      expect(back, sort).toEqual(there.toReversed());
    }
  });

  test("shows what its filter leaves, and its export holds as many", async () => {
    expect(await walkList(reader(), `${path}?${filter}`, cell)).toHaveLength(count);
    expect(await takeExport(reader(), `${path}?${filter}`)).toHaveLength(count);
  });

  test("says so where nothing fits, and leads back", async () => {
    const page = await readPage(reader(), `${path}?${nothing}`);
    expect(page.status).toBe(200);
    expect(page.text).toContain('class="empty"');
    expect(page.text).toContain(`href="${path}"`);
  });
});
