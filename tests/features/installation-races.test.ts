import pg from "pg";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { startService, type TestService } from "../support/app.ts";
import {
  addModel,
  addSite,
  install,
  kindsOf,
  type Made,
  moveUnit,
  readLife,
  receive,
} from "../support/stock.ts";

let service: TestService;
let model: Made;
beforeAll(async () => {
  service = await startService();
  model = await addModel(service);
});
afterAll(() => service.stop());

const office = () => service.as(service.firm.people.office);
const move = (unit: Made, what: "installation" | "removal" | "swap", body: object) =>
  moveUnit(service, unit, what, body);
const read = (unit: { id: string }) => readLife(service, unit);
const stock = () => receive(service, model.id);

describe("an installation", () => {
  test("of one unit at two sites at the same time succeeds at exactly one", async () => {
    const unit = await stock();
    const sites = [await addSite(service), await addSite(service), await addSite(service)];
    const replies = await Promise.all(
      sites.map(({ id }) => move(unit, "installation", { siteId: id })),
    );
    expect(replies.map(({ status }) => status).sort()).toEqual([201, 409, 409]);
    const won = sites[replies.findIndex(({ status }) => status === 201)]!;
    const life = await read(unit);
    expect([life.siteId, kindsOf(life)]).toEqual([won.id, ["received", "installed"]]);
    for (const { body } of replies.filter(({ status }) => status === 409)) {
      expect([body.type, body.site.reference]).toEqual([
        "/problems/serial-live-elsewhere",
        won.reference,
      ]);
    }
  });

  test("of twins with one serial at two sites at the same time succeeds for one", async () => {
    const unit = await stock();
    const twin = await receive(service, (await addModel(service)).id, { serial: unit.serial });
    const sites = [await addSite(service), await addSite(service)];
    const replies = await Promise.all([
      move(unit, "installation", { siteId: sites[0]!.id }),
      move(twin, "installation", { siteId: sites[1]!.id }),
    ]);
    expect(replies.map(({ status }) => status).sort()).toEqual([201, 409]);
    const refused = replies.find(({ status }) => status === 409)!;
    expect(refused.body.type).toBe("/problems/serial-live-elsewhere");
  });

  test("of two packs in one place of a bank at the same time succeeds for one", async () => {
    const site = await addSite(service);
    const bank = await office().post("/api/v1/banks").send({ siteId: site.id, name: "Bank A" });
    const packs = [await stock(), await stock()];
    const place = { siteId: site.id, bankId: bank.body.id, bankPosition: 1 };
    const replies = await Promise.all(packs.map((pack) => move(pack, "installation", place)));
    expect(replies.map(({ status }) => status).sort()).toEqual([201, 409]);
    const won = packs[replies.findIndex(({ status }) => status === 201)]!;
    const refused = replies.find(({ status }) => status === 409)!;
    expect(refused.body.unitId).toBe(won.id);
  });
});

describe("the application's role in the database", () => {
  const asApplication = async (sql: string, values: unknown[]): Promise<string | undefined> => {
    const client = new pg.Client({ connectionString: service.appUrl });
    await client.connect();
    try {
      await client.query("BEGIN");
      await client.query("SELECT set_config('app.firm_id', $1, true)", [service.firm.firmId]);
      await client.query(sql, values);
      await client.query("COMMIT");
      return undefined;
    } catch (error) {
      return (error as { constraint?: string }).constraint ?? String(error);
    } finally {
      await client.end();
    }
  };

  test("cannot move an installed unit to another site", async () => {
    const unit = await stock();
    const [first, second] = [await addSite(service), await addSite(service)];
    await install(service, unit, first);
    const refused = await asApplication("UPDATE unit SET site_id = $1 WHERE id = $2", [
      second.id,
      unit.id,
    ]);
    expect(refused).toBe("unit_live_at_one_site");
    expect((await read(unit)).siteId).toBe(first.id);
  });

  test("cannot put a unit in a bank of another site, nor two in one place", async () => {
    const [site, elsewhere] = [await addSite(service), await addSite(service)];
    const packs = [await stock(), await stock()];
    for (const pack of packs) await install(service, pack, site);
    const bankAt = async (siteId: string): Promise<string> =>
      (await office().post("/api/v1/banks").send({ siteId, name: "Bank" })).body.id;
    const [here, there] = [await bankAt(site.id), await bankAt(elsewhere.id)];
    const place = "UPDATE unit SET bank_id = $1, bank_position = 1 WHERE id = ANY ($2)";
    expect(await asApplication(place, [there, [packs[0]!.id]])).toBe("unit_bank_at_its_site");
    expect(await asApplication(place, [here, packs.map(({ id }) => id)])).toBe("unit_bank_place");
    expect(await asApplication(place, [here, [packs[0]!.id]])).toBeUndefined();
  });

  test("cannot change what a unit's history says", async () => {
    const unit = await stock();
    const refused = await asApplication(
      "UPDATE unit_event SET kind = 'removed' WHERE unit_id = $1",
      [unit.id],
    );
    expect(refused).toContain("permission denied");
  });
});
