// What the interface refuses, an import refuses in the same words: each bad row beside the same
// thing sent to the interface, row by row.
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { type Client, startService, type TestService } from "../support/app.ts";
import { badRowsOf, importFile, office, tryFile } from "../support/imports.ts";

const NOW = new Date("2026-11-25T12:00:00Z");
let service: TestService;
let desk: Client;
beforeAll(async () => {
  service = await startService({ now: () => NOW });
  desk = office(service);
  await importFile(desk, "customers", "reference,name\nK-1,Hanne Osei\nK-2,Bo Li\nK-3,Ida Rook\n");
  await importFile(desk, "sites", SITES);
});
afterAll(() => service.stop());

const HEAD = "reference,customer,address,town,postcode,country,lat,lon,time zone,supply,region";
const REST = "14 Larch Row,Northwick,NW0 4ZZ,GB,52.19,-1.71,Europe/London,TN-S,uk";
const SITES = `${HEAD}\nQ-1,K-1,${REST}\nQ-2,K-1,${REST}\nQ-3,K-2,${REST}\n`;

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

describe("customers and sites", () => {
  test.each([
    ["email", "nobody"],
    ["phone", "1".repeat(41)],
    ["language", "xx"],
    ["name", `"a\nb"`],
  ])("a customer's %s is refused as the interface refuses it", async (field, cell) => {
    const columns = field === "name" ? ["name"] : ["name", field];
    const cells = field === "name" ? [cell] : ["Ada", cell];
    const body = Object.fromEntries(
      columns.map((name, index) => [name, cells[index]!.replaceAll('"', "")]),
    );
    const reply = await desk.post("/api/v1/customers").send(body);
    expect(reply.status).toBe(422);
    const reason = await reasonOf("customers", `${columns.join(",")}\n${cells.join(",")}\n`);
    expect(reason).toBe(`${field}: ${saidOf(reply)}`);
  });

  test.each([
    ["country", "XX"],
    ["latitude", "91"],
    ["timeZone", "Europe/Nowhere"],
    ["supply", "TN"],
    ["postcode", "12345678901234567"],
  ])("a site's %s is refused as the interface refuses it", async (field, cell) => {
    const { body: customer } = await desk.get("/api/v1/customers?name=Hanne");
    const good = { ...SITE_BODY, customerId: customer.items[0].id };
    const value = field === "latitude" ? Number(cell) : cell;
    const reply = await desk.post("/api/v1/sites").send({ ...good, [field]: value });
    expect(reply.status).toBe(422);
    const row: Record<string, unknown> = { ...SITE_BODY, customer: "K-1", [field]: cell };
    const file = `${Object.keys(row).join(",")}\n${Object.values(row).join(",")}\n`;
    expect(await reasonOf("sites", file)).toBe(`${field}: ${saidOf(reply)}`);
  });

  test("an archived or unknown customer gets no site", async () => {
    const { body } = await desk.get("/api/v1/customers?name=Ida");
    const { id, version } = body.items[0];
    await desk.patch(`/api/v1/customers/${id}`).set("if-match", `"${version}"`).send({
      archived: true,
    });
    const reply = await desk.post("/api/v1/sites").send({ ...SITE_BODY, customerId: id });
    expect(await reasonOf("sites", `${HEAD}\nQ-9,K-3,${REST}\n`)).toBe(saidOf(reply));
    const unknown = await desk
      .post("/api/v1/sites")
      .send({ ...SITE_BODY, customerId: "019ac4a1-1111-7cc1-9d6a-0c8f6f0b7a11" });
    expect(await reasonOf("sites", `${HEAD}\nQ-9,K-99,${REST}\n`)).toBe(saidOf(unknown));
  });
});

const SITE_BODY = {
  ...{ addressLine: "1 Larch Row", locality: "Northwick", postcode: "NW0 4ZZ", country: "GB" },
  ...{ latitude: 52.19, longitude: -1.71, timeZone: "Europe/London", supply: "TN-S" },
  region: "uk",
};
