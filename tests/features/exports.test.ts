// Lists taken away as CSV. What is written is read back by a parser of others' (csv-parse), and
// holds what the list itself holds under the same filter.
import { parse } from "csv-parse/sync";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { ACCESS } from "../../src/access.ts";
import { EXPORT_LISTS } from "../../src/features/exports/every-list.ts";
import { type Client, startService, type TestService } from "../support/app.ts";
import { importFile, office } from "../support/imports.ts";
import { queueOne } from "../support/outbox.ts";
import { addModel, receive } from "../support/stock.ts";

let service: TestService;
let desk: Client;
beforeAll(async () => {
  service = await startService();
  desk = office(service);
  await importFile(desk, "customers", CUSTOMERS);
});
afterAll(() => service.stop());

const CUSTOMERS =
  'reference,name,email,phone,note\r\nK-1,"Osei, Hanne",h@x.example,+44 20,"He said ""=1+1""' +
  '\nand left"\r\n' +
  "K-2,=SUM(A1),,@here,-2\r\nK-3,Núñez;Gómez,,,\r\n";

interface Taken {
  rows: Record<string, string>[];
  text: string;
}

async function take(path: string, client: Client = desk): Promise<Taken> {
  const { status, text, headers } = await client.get(`/api/v1/exports/${path}`);
  expect(status, text).toBe(200);
  expect(headers["content-type"]).toBe("text/csv; charset=utf-8");
  expect(headers["content-disposition"]).toMatch(/^attachment; filename="[a-z-]+\.csv"$/);
  return { text, rows: parse(text, { columns: true, bom: true }) };
}

describe("an export", () => {
  test("is UTF-8 with a header, quoted by RFC 4180, formulas defused as OWASP says", async () => {
    const { text, rows } = await take("customers.csv");
    expect(text.startsWith("\ufeffreference,name,")).toBe(true);
    expect(text).toContain('K-1,"Osei, Hanne",');
    expect(rows).toMatchObject([
      { reference: "K-1", name: "Osei, Hanne", phone: "'+44 20", note: 'He said "=1+1"\nand left' },
      { reference: "K-2", name: "'=SUM(A1)", phone: "'@here", note: "'-2" },
      { reference: "K-3", name: "Núñez;Gómez" },
    ]);
  });

  test("of customers comes in again and changes nothing", async () => {
    const { text } = await take("customers.csv");
    const again = await importFile(desk, "customers", text);
    expect(again.figures).toMatchObject({ rows: 3, unchanged: 3 });
  });

  test("is on record, who took what and how many rows, for the auditor to see", async () => {
    await take("customers.csv?name=Osei");
    const auditor = service.as(service.firm.people.auditor);
    const { body } = await auditor.get("/api/v1/exports?list=customers&limit=1");
    expect(body.items[0]).toMatchObject({
      ...{ list: "customers", rows: 1, filter: { name: "Osei", archived: false } },
      personName: "office person",
    });
    expect((await desk.get("/api/v1/exports")).status).toBe(403);
  });

  test("breaks off before a row where a filter is not one of the list's", async () => {
    expect((await desk.get("/api/v1/exports/customers.csv?nam=Osei")).status).toBe(422);
    expect((await desk.get("/api/v1/exports/nothing.csv")).status).toBe(404);
  });

  test("of another firm's things has none of them", async () => {
    const other = await service.addFirm("birch");
    expect((await take("customers.csv", service.as(other.people.office))).rows).toEqual([]);
  });
});

/** A row for several of the lists; the unit among them. */
async function oneOfEach() {
  const { id } = await addModel(service, { code: "CAIRN-EXP" });
  const unit = await receive(service, id);
  await desk.post("/api/v1/instruments").send({
    ...{ reference: "IT-1", name: "Tester", serial: "1", instrumentClass: "multimeter" },
    accuracy: { percentOfReading: 0.5 },
  });
  const owner = service.as(service.firm.people.owner);
  await desk.post("/api/v1/nonconformances").send({ kind: "work", title: "Wrong bit used" });
  const release = { level: "2.4.0", severity: "safety", releasedOn: "2026-11-20", modelId: id };
  await owner.post("/api/v1/firmware/releases").send(release);
  await queueOne(service);
  const personId = service.firm.people.installer.id;
  await desk.post("/api/v1/crews").send({ name: "Dale", personIds: [personId] });
  const away = { personId, from: "2026-12-08", to: "2026-12-09", reason: "leave" };
  await desk.post("/api/v1/absences").send(away);
  const kind = await owner.post("/api/v1/qualification-kinds").send({ name: "Live work" });
  const kindId = kind.body.id;
  await desk.post("/api/v1/qualifications").send({ personId, kindId, validFrom: "2026-01-01" });
  return unit;
}

const NEEDS: Record<string, string> = {
  "audit-sample": "?from=2026-01-01&to=2026-12-31&limit=2.5&seed=abcd",
};

describe("each list", () => {
  const LISTED: Record<string, string> = {
    exportDueList: "listFirmwareDue",
    exportAuditSample: "auditsPage",
    exportKeptAuditSample: "listAuditSamples",
    exportStockCounts: "countStock",
    exportMissing: "readMissing",
    exportCalibrations: "listInstruments",
    exportFleetLevels: "readFleetCounts",
    exportWarrantyDays: "readWarrantyCalendar",
  };

  test("is taken away by whoever may read it, and by nobody else", () => {
    const operations = [...EXPORT_LISTS.map(({ operationId }) => operationId), "exportDueList"];
    for (const operation of operations) {
      const listed = LISTED[operation] ?? operation.replace(/^export/, "list");
      expect([operation, ACCESS[operation]]).toEqual([operation, ACCESS[listed]]);
    }
  });

  test("has a header and a row a thing, or none", async () => {
    const unit = await oneOfEach();
    const owner = service.as(service.firm.people.owner);
    const counts: Record<string, number> = {};
    for (const { name } of EXPORT_LISTS) {
      const taker = name === "held-operations" ? desk : owner;
      counts[name] = (await take(`${name}.csv${NEEDS[name] ?? ""}`, taker)).rows.length;
    }
    // Those that were taken before it, of this test and of the others.
    expect(counts.exports).toBeGreaterThan(30);
    const filled = Object.entries(counts).filter(([, rows]) => rows > 0);
    expect(Object.fromEntries(filled)).toEqual({
      ...{ customers: 3, units: 1, instruments: 1, people: 5, nonconformances: 1, stock: 1 },
      ...{ mails: 1, releases: 1, "product-models": 1, crews: 1, qualifications: 1, absences: 1 },
      ...{ "audit-looks": 1, "stock-counts": 1, "qualification-kinds": 1, "rule-packs": 3 },
      ...{ imports: 2, "audit-access": 1, exports: counts.exports },
    });
    expect((await take("crews.csv")).rows).toMatchObject([{ name: "Dale", active: "true" }]);
    expect((await take("qualifications.csv")).rows).toMatchObject([{ validTo: "" }]);
    const { rows } = await take(`units.csv?serial=${unit.serial.toLowerCase()}&sort=-model`);
    expect(rows).toMatchObject([{ model: "CAIRN-EXP", serial: unit.serial, state: "received" }]);
    expect((await take("due.csv")).rows).toEqual([]);
    const again = await take("instruments.csv?text=test");
    expect(again.rows).toMatchObject([{ reference: "IT-1", fitNow: "false" }]);
    const { figures } = await importFile(desk, "instruments", again.text);
    expect(figures).toMatchObject({ unchanged: 1 });
  });
});
