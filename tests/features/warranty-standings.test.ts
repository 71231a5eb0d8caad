// The list of warranties filters, sorts and counts in the database; what it says of a unit there is
// held here to what src/domain/warranty says, over a fleet by chance, with its seed named.
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { inFirm } from "../../src/db/scope.ts";
import { judgeUnits } from "../../src/features/warranty/judge.ts";
import { STANDINGS, type UnitWarranty } from "../../src/features/warranty/schemas.ts";
import { standingIds } from "../../src/features/warranty/standing-store.ts";
import { startService, type TestService } from "../support/app.ts";
import { chanceOf, SEED } from "../support/chance.ts";
import { words } from "../support/page-forms.ts";
import { addWarrantyFleet, type Fleet } from "../support/warranty-fleet.ts";

const NOW = new Date("2026-11-25T12:00:00Z");
const TODAY = "2026-11-25";
const UNITS = 240;
let service: TestService;
let fleet: Fleet;
let judged: UnitWarranty[];

beforeAll(async () => {
  service = await startService({ now: () => NOW });
  const size = { today: TODAY, models: 10, units: UNITS };
  fleet = await addWarrantyFleet(service, chanceOf(SEED), size);
  judged = await inFirm(service.db, service.firm.firmId, (tx) =>
    judgeUnits(tx, { most: 1000 }, NOW),
  );
});
afterAll(() => service.stop());

const office = () => service.as(service.firm.people.office);
const openUntil = (row: UnitWarranty) => (row.registration ? null : row.registerBy);
const idsOf = (rows: readonly UnitWarranty[]) => rows.map(({ unitId }) => unitId);

describe(`seed ${SEED}`, () => {
  test("the database says of each unit what the rules say", async () => {
    const sorting = { column: "endsOn", descending: false };
    const found = await inFirm(service.db, service.firm.firmId, (tx) =>
      standingIds(tx, { sorting, most: 1000 }, NOW),
    );
    const told = new Map(found.map(({ id, state, place }) => [id, [state, place]]));
    const ruled = judged.map(({ unitId, state, endsOn }) => [
      unitId,
      [state ?? "none", endsOn ?? "9999"],
    ]);
    expect(told).toEqual(new Map(ruled as never));
    expect(new Set(judged.map(({ state }) => state ?? "none"))).toEqual(new Set(STANDINGS));
    const places = found.map(({ place }) => place);
    expect(places).toEqual(places.toSorted());
  });

  test.each(STANDINGS)("the list and the counts agree on what is %s", async (state) => {
    const mine = judged.filter((row) => (row.state ?? "none") === state);
    const list = await office().get(`/api/v1/warranty?state=${state}&limit=200`);
    expect(list.body.items).toEqual(mine);
    const counts = await office().get("/api/v1/warranty/counts");
    expect(counts.body.units[state]).toBe(mine.length);
  });

  test("the registration list holds what is open before a day, overdue ones too", async () => {
    const open = judged.filter((row) => openUntil(row) !== null);
    const counts = await office().get("/api/v1/warranty/counts");
    expect(counts.body.unregistered).toBe(open.length);
    const soon = open.filter((row) => (openUntil(row) ?? "") < "2026-12-10");
    const list = await office().get("/api/v1/warranty?registerBefore=2026-12-10&limit=200");
    expect(idsOf(list.body.items)).toEqual(idsOf(soon));
    expect(soon.length).toBeGreaterThan(0);
  });

  test("the export takes the same filters and gives the same rows", async () => {
    const [, model] = fleet.models as unknown as [unknown, { id: string }];
    const query = `state=at-risk&modelId=${model.id}&sort=endsOn`;
    const { token } = service.firm.people.office;
    const file = await service.anonymous
      .get(`/api/v1/exports/warranty.csv?${query}`)
      .set({ cookie: `__Host-access=${token}` });
    const { body } = await office().get(`/api/v1/warranty?modelId=${model.id}&limit=200`);
    const mine = (body.items as UnitWarranty[]).filter(({ state }) => state === "at-risk");
    const serials = file.text
      .trimEnd()
      .split("\r\n")
      .slice(1)
      .map((line) => line.split(",")[0]);
    expect(serials).toEqual(mine.map(({ serial }) => serial));
  });
});

test("the page counts, filters and pages in the order asked for", async () => {
  const read = async (path: string) =>
    (await office().get(path).set("accept", "text/html")).text as string;
  const serials = (html: string) => [...html.matchAll(/warranty">(WF\d+)</g)].map(([, one]) => one);
  const first = await read("/warranty?registration=open&sort=registerBy");
  const next = /href="([^"]+)" rel="next"/.exec(first)?.[1]?.replaceAll("&amp;", "&");
  const rest = next ? serials(await read(next.replaceAll("&#x3D;", "="))) : [];
  const open = judged
    .filter((row) => openUntil(row) !== null)
    .toSorted((a, b) => {
      const [one, other] = [openUntil(a) ?? "", openUntil(b) ?? ""];
      return one < other ? -1 : one > other ? 1 : a.unitId < b.unitId ? -1 : 1;
    });
  const shown = [...serials(first), ...rest];
  expect(shown).toEqual(open.slice(0, shown.length).map(({ serial }) => serial));
  expect(shown.length).toBe(Math.min(open.length, 80));
  expect(words(first)).toMatch(/days over|day over/);
});
