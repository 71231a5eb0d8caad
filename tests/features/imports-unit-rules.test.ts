// What the interface refuses, an import refuses in the same words: each bad row beside the same
// thing sent to the interface, row by row.
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { inFirm } from "../../src/db/scope.ts";
import { type Client, startService, type TestService } from "../support/app.ts";
import { badRowsOf, importFile, office, tryFile } from "../support/imports.ts";
import {
  addModel,
  install,
  type Made,
  moveUnit,
  readLife,
  receive,
  siteOf,
} from "../support/stock.ts";

const NOW = new Date("2026-11-25T12:00:00Z");
let service: TestService;
let desk: Client;
let model: Made & { code: string };
beforeAll(async () => {
  service = await startService({ now: () => NOW });
  desk = office(service);
  const { id } = await addModel(service);
  model = { ...(await desk.get(`/api/v1/product-models/${id}`)).body };
  await importFile(desk, "customers", "reference,name\nK-1,Hanne Osei\nK-2,Bo Li\nK-3,Ida Rook\n");
  await importFile(desk, "sites", SITES);
});
afterAll(() => service.stop());

const HEAD = "reference,customer,address,town,postcode,country,lat,lon,time zone,supply,region";
const REST = "14 Larch Row,Northwick,NW0 4ZZ,GB,52.19,-1.71,Europe/London,TN-S,uk";
const SITES = `${HEAD}\nQ-1,K-1,${REST}\nQ-2,K-1,${REST}\nQ-3,K-2,${REST}\n`;

const siteId = async (reference: string): Promise<string> =>
  inFirm(service.db, service.firm.firmId, async (tx) => {
    const row = await tx.site.findFirstOrThrow({ where: { reference } });
    return row.id;
  });

/** The first thing that the interface finds wrong. */
const saidOf = ({ body }: { body: { detail: string; errors?: { detail: string }[] } }): string =>
  body.errors?.[0]?.detail ?? body.detail;

/** The reason of the only row of the file. */
async function reasonOf(kind: string, file: string): Promise<string> {
  const tried = await tryFile(desk, kind, file);
  const rows = await badRowsOf(desk, tried.id);
  expect(rows.map(({ line }) => line)).toEqual([2]);
  return rows[0]!.reason;
}

describe("units", () => {
  const unitsFile = (serial: string, site = "", at = "") =>
    `model,serial,site,installed at\n${model.code},${serial},${site},${at}\n`;
  const goodsIn = (serial: string) =>
    desk.post("/api/v1/units").send({ modelId: model.id, serial });

  test("come into stock or straight to their sites, each move in the unit's life", async () => {
    const [first, second] = [unusedSerial(), unusedSerial()];
    const file = [
      "modelo;n.º de serie;sitio;fecha de instalación",
      `${model.code};${first};Q-1;2026-03-02`,
      `${model.code};${second};;\n`,
    ].join("\n");
    const done = await importFile(desk, "units", file, {
      columns: ["model", "serial", "site", "installedAt"],
    });
    expect(done.figures).toMatchObject({ new: 2 });
    const { body } = await desk.get(`/api/v1/units?serial=${first}`);
    expect(body.items[0]).toMatchObject({ state: "installed", siteReference: "Q-1" });
    const life = await readLife(service, body.items[0]);
    expect(life.events.map(({ kind, at }: { kind: string; at: string }) => [kind, at])).toEqual([
      ["received", "2026-03-02T00:00:00.000Z"],
      ["installed", "2026-03-02T00:00:00.000Z"],
    ]);
    expect(
      (
        await importFile(desk, "units", file, {
          columns: ["model", "serial", "site", "installedAt"],
        })
      ).figures,
    ).toMatchObject({ unchanged: 2 });
    const later = await importFile(desk, "units", unitsFile(second, "Q-2"));
    expect(later.figures).toMatchObject({ changed: 1 });
    const moved = await desk.get(`/api/v1/units?serial=${second}`);
    expect(moved.body.items[0]).toMatchObject({ siteReference: "Q-2", version: 2 });
  });

  test("a serial against the rule of its model is refused in the words of goods-in", async () => {
    const reply = await goodsIn("WRONG");
    expect(reply.status).toBe(422);
    expect(await reasonOf("units", unitsFile("WRONG"))).toBe(`serial: ${saidOf(reply)}`);
  });

  test("a unit live elsewhere, swapped out, or in quarantine stays where it is", async () => {
    const live = await receive(service, model.id);
    await install(service, live, siteOf({ siteId: await siteId("Q-1") }));
    const other = await moveUnit(service, live, "installation", { siteId: await siteId("Q-2") });
    expect(other.status).toBe(409);
    expect(await reasonOf("units", unitsFile(live.serial, "Q-2"))).toBe(saidOf(other));

    const swapped = await moveUnit(service, live, "swap", {
      ...{ newSerial: unusedSerial(), reason: "Cell 7" },
    });
    expect(swapped.status).toBe(201);
    const again = await moveUnit(service, live, "installation", { siteId: await siteId("Q-2") });
    expect(await reasonOf("units", unitsFile(live.serial, "Q-2"))).toBe(saidOf(again));

    const damaged = await receive(service, model.id);
    await inFirm(service.db, service.firm.firmId, (tx) =>
      tx.unit.updateMany({ where: { id: damaged.id }, data: { quarantinedAt: NOW } }),
    );
    const kept = await moveUnit(service, damaged, "installation", { siteId: await siteId("Q-2") });
    expect(await reasonOf("units", unitsFile(damaged.serial, "Q-2"))).toBe(saidOf(kept));
  });

  test("a move before the unit's last one, or in the future, is refused", async () => {
    const unit = await receive(service, model.id);
    await install(service, unit, siteOf({ siteId: await siteId("Q-1") }));
    await moveUnit(service, unit, "removal", { reason: "Sold" });
    await goodsIn(unit.serial);
    const at = "2026-01-05T10:00:00Z";
    const early = await moveUnit(service, unit, "installation", {
      siteId: await siteId("Q-1"),
      at,
    });
    expect(early.status).toBe(422);
    expect(await reasonOf("units", unitsFile(unit.serial, "Q-1", at))).toBe(saidOf(early));
    const soon = "2027-01-05T10:00:00Z";
    const fresh = await moveUnit(service, unit, "installation", {
      ...{ siteId: await siteId("Q-1"), at: soon },
    });
    expect(await reasonOf("units", unitsFile(unit.serial, "Q-1", soon))).toBe(
      `installed at: ${saidOf(fresh)}`,
    );
  });

  test("a site that is archived takes no unit", async () => {
    const unit = await receive(service, model.id);
    const id = await siteId("Q-3");
    const { body } = await desk.get(`/api/v1/sites/${id}`);
    await desk.patch(`/api/v1/sites/${id}`).set("if-match", `"${body.version}"`).send({
      archived: true,
    });
    const reply = await moveUnit(service, unit, "installation", { siteId: id });
    expect(await reasonOf("units", unitsFile(unit.serial, "Q-3"))).toBe(saidOf(reply));
  });
});

let made = 9000;
/** A serial by the model's rule that no unit has. */
function unusedSerial(): string {
  made += 1;
  return `FS${made}`;
}
