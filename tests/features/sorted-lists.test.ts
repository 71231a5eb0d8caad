// "Tables sort, filter, page and export": the lists of what comes in, goes out and is looked at, in
// the order of a column over all their pages, and what their filters and exports leave.
import { uuidv7 } from "uuidv7";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { inFirm } from "../../src/db/scope.ts";
import { addAuditLook } from "../../src/features/audit-looks/store.ts";
import { type Client, startService, type TestService } from "../support/app.ts";
import { heads, readPage, takeExport, walkList } from "../support/list-pages.ts";

let service: TestService;
let owner: Client;
const COUNT = 45;
const number = (index: number) => String(index).padStart(2, "0");

beforeAll(async () => {
  service = await startService();
  owner = service.as(service.firm.people.owner);
  for (let index = 0; index < COUNT; index += 1) await addRows(index);
  await addHistory();
});
afterAll(() => service.stop());

// The order of entry is not the order of any column.
const turned = (index: number) => number((index * 7) % COUNT);

async function addRows(index: number): Promise<void> {
  const isEven = index % 2 === 0;
  const kind = isEven ? "customers" : "units";
  await ok(owner.post("/api/v1/imports").send({ kind, fileName: `rows-${turned(index)}.csv` }));
  const key = { name: `Program ${turned(index)}`, scopes: ["read:fleet"] };
  const { id } = await ok(owner.post("/api/v1/api-keys").send(key));
  if (isEven) await ok(owner.post(`/api/v1/api-keys/${id}/revocation`));
  const personIds = isEven ? [service.firm.people.installer.id] : [];
  await ok(owner.post("/api/v1/crews").send({ name: `Crew ${turned(index)}`, personIds }));
}

/** What takes days to come about: bags of evidence, proposals of rounds, looks by auditors. */
async function addHistory(): Promise<void> {
  const { firmId, people } = service.firm;
  const rows = Array.from({ length: COUNT }, (_, index) => ({
    ...{ index, firmId, at: turned(index), isEven: index % 2 === 0 },
    createdAt: new Date(Date.UTC(2026, 10, 1, index % 24)),
  }));
  await inFirm(service.db, firmId, async (tx) => {
    await tx.evidenceExport.createMany({
      data: rows.map(({ index, at, isEven, createdAt }) => ({
        ...{ firmId, id: uuidv7(), createdAt, title: `site ${at}` },
        scope: { kind: "site", siteId: uuidv7() },
        ...{ fileName: `${at}.zip`, jobsTotal: index, sha256: "0".repeat(64) },
        ...{ state: isEven ? "ready" : "gone", personId: people[isEven ? "owner" : "office"].id },
      })),
    });
    await tx.updateRound.createMany({
      data: rows.map(({ at, isEven, createdAt }) => ({
        ...{ firmId, id: uuidv7(), createdAt, reference: `R-2026-00${at}`, request: {} },
        ...{ state: isEven ? "accepted" : "dropped", createdById: people.owner.id },
        proposal: { sentence: "No site is due.", rounds: [], leftOut: [] },
      })),
    });
    for (const { at, isEven, createdAt } of rows) {
      const look = { path: `/units/look-${at}`, operation: "unitPage", subjectId: null };
      const day = isEven ? "2026-11-01" : "2026-11-02";
      await addAuditLook(tx, { ...look, personId: people.auditor.id, day, at: createdAt });
    }
  });
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
  ["/audit-looks", "what", />(\/units\/look-\d\d)</g, "day=2026-11-02", 22, "day=2020-01-01"],
  ["/evidence", "what", /<td>(site \d\d)</g, "state=gone", 22, "state=failed"],
  ["/rounds", "proposal", />(R-2026-\d{4})</g, "state=dropped", 22, "state=proposed"],
  ["/crews", "crew", /<td><a [^>]*>(Crew \d\d)/g, "name=crew+1", 10, "name=nobody-here"],
] as const;

describe.each(LISTS)("%s", (path, column, cell, filter, count, nothing) => {
  test(`is in the order of ${column} over its pages`, async () => {
    const up = await walkList(owner, `${path}?sort=${column}`, cell);
    expect(new Set(up).size).toBe(COUNT);
    expect(up).toEqual(up.toSorted());
  });

  test("each head turns the whole list round, every row once, and keeps the filter", async () => {
    const sorts = [];
    for (const { href, sort } of await heads(owner, `${path}?${filter}`)) {
      expect(href).toContain(filter);
      sorts.push(sort);
    }
    expect(sorts.length).toBeGreaterThan(1);
    for (const sort of sorts) {
      const there = await walkList(owner, `${path}?sort=${sort}`, cell);
      const back = await walkList(owner, `${path}?sort=-${sort}`, cell);
      expect(new Set(there).size, sort).toBe(COUNT);
      expect(back, sort).toEqual(there.toReversed());
    }
  });

  test("shows what its filter leaves, and its export holds as many", async () => {
    expect(await walkList(owner, `${path}?${filter}`, cell)).toHaveLength(count);
    expect(await takeExport(owner, `${path}?${filter}`)).toHaveLength(count);
  });

  test("says so where nothing fits, and leads back", async () => {
    const page = await readPage(owner, `${path}?${nothing}`);
    expect(page.status).toBe(200);
    expect(page.text).toContain('class="empty"');
    expect(page.text).toContain(`href="${path}"`);
  });
});

test("a crew that was disbanded stands in the list of those, and in its export alone", async () => {
  const { id } = await ok(owner.post("/api/v1/crews").send({ name: "Gone crew", personIds: [] }));
  const { headers } = await owner.get(`/api/v1/crews/${id}`);
  const crew = owner.patch(`/api/v1/crews/${id}`).set("if-match", headers.etag ?? "");
  expect((await crew.send({ active: false })).status).toBe(200);
  const cell = /<td><a href="\/crews\/[^>]*>([^<]+)/g;
  expect(await walkList(owner, "/crews?active=false", cell)).toEqual(["Gone crew"]);
  expect(await walkList(owner, "/crews", cell)).toHaveLength(COUNT);
  expect(await takeExport(owner, "/crews?active=false")).toMatchObject([{ name: "Gone crew" }]);
  expect(await takeExport(owner, "/crews")).toHaveLength(COUNT);
});
