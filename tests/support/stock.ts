// Sites, product models and units as the office enters them, for tests whose subject comes after.
import { expect } from "vitest";
import { inFirm } from "../../src/db/scope.ts";
import type { Client, TestFirm, TestService } from "./app.ts";

let count = 0;
/** A number that no other row of the test file has. */
export function nextNumber(): string {
  count += 1;
  return String(count).padStart(4, "0");
}

async function made(client: Client, path: string, body: object): Promise<Made> {
  const reply = await client.post(path).send(body);
  expect(reply.status, JSON.stringify(reply.body)).toBe(201);
  return reply.body as Made;
}

export interface Made {
  id: string;
  reference: string;
  serial: string;
  version: number;
}

const officeOf = (service: TestService, firm: TestFirm = service.firm): Client =>
  service.as(firm.people.office);

export const SITE = {
  addressLine: "14 Larch Row",
  locality: "Northwick",
  postcode: "NW0 4ZZ",
  country: "GB",
  latitude: 52.19,
  longitude: -1.71,
  timeZone: "Europe/London",
  supply: "TN-C-S",
  region: "uk",
};

export async function addSite(
  service: TestService,
  fields: object = {},
  firm?: TestFirm,
): Promise<Made> {
  const office = officeOf(service, firm);
  const customer = await made(office, "/api/v1/customers", { name: `Customer ${nextNumber()}` });
  return made(office, "/api/v1/sites", { ...SITE, customerId: customer.id, ...fields });
}

export const modelBody = (fields: object = {}) => ({
  code: `CAIRN-${nextNumber()}`,
  name: "Cairn 48 battery pack",
  maker: "Fellside Storage",
  kind: "battery-pack",
  serialMask: "FS#{4}",
  serialCheck: "none",
  firmwareScheme: "semver",
  ...fields,
});

export const addModel = (
  service: TestService,
  fields: object = {},
  firm?: TestFirm,
): Promise<Made> => made(officeOf(service, firm), "/api/v1/product-models", modelBody(fields));

/** A unit in stock; the model's mask must be that of `modelBody` unless a serial is given. */
export const receive = (
  service: TestService,
  modelId: string,
  fields: object = {},
  firm?: TestFirm,
): Promise<Made> =>
  made(officeOf(service, firm), "/api/v1/units", {
    modelId,
    serial: `FS${nextNumber()}`,
    ...fields,
  });

export async function install(
  service: TestService,
  unit: Made,
  site: Made,
  fields: object = {},
): Promise<Made> {
  const path = `/api/v1/units/${unit.id}/installation`;
  return made(officeOf(service), path, { siteId: site.id, ...fields });
}

/** A move as the installer sends it. */
export const moveUnit = (
  service: TestService,
  unit: { id: string },
  what: "installation" | "removal" | "swap",
  body: object,
) => service.as(service.firm.people.installer).post(`/api/v1/units/${unit.id}/${what}`).send(body);

export const readLife = async (service: TestService, unit: { id: string }) =>
  (await officeOf(service).get(`/api/v1/units/${unit.id}/life`)).body;

export const kindsOf = (life: { events: { kind: string }[] }): string[] =>
  life.events.map(({ kind }) => kind);

/** A site that was made straight in the database. */
export const siteOf = (rows: { siteId: string }): Made => ({
  id: rows.siteId,
  reference: "",
  serial: "",
  version: 1,
});

export const ledgerOf = (service: TestService, jobId: string) =>
  inFirm(service.db, service.firm.firmId, (tx) =>
    tx.ledgerEntry.findMany({ where: { jobId }, orderBy: { seq: "asc" } }),
  );
