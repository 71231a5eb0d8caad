import { uuidv7 } from "uuidv7";
import { afterAll, beforeAll, expect, test } from "vitest";
import { startService, type TestService } from "../support/app.ts";

let service: TestService;
beforeAll(async () => {
  service = await startService();
});
afterAll(() => service.stop());

const id = uuidv7();

// An export link carries the page's own filters and order, so its export has to know them all.
test.each([
  ["/customers", "customers", "name=osei&archived=true&sort=-name"],
  ["/sites", "sites", `place=row&customerId=${id}&region=uk&archived=true&sort=reference`],
  ["/units", "units", `serial=fs1&modelId=${id}&siteId=${id}&state=installed&sort=-serial`],
  ["/units", "units", "firmwareLevel=2.1.0&sort=model"],
  ["/instruments", "instruments", "text=it&instrumentClass=multimeter&sort=-dueOn"],
  ["/instruments", "instruments", "dueBefore=2027-01-01&retired=true"],
  ["/jobs", "jobs", `q=packs&state=all&kind=install&crewId=${id}&blockedBy=instrument`],
  ["/firmware", "due", `severity=safety&modelId=${id}&region=uk&overdue=true`],
  ["/firmware", "due", "dueFrom=2026-01-01&dueBefore=2027-01-01"],
])("what %s is filtered by, its export of %s takes: %s", async (path, list, query) => {
  const { token } = service.firm.people.office;
  const headers = { accept: "text/html", cookie: `__Host-access=${token}` };
  const page = await service.anonymous.get(`${path}?${query}`).set(headers);
  const taken = await service.anonymous.get(`/api/v1/exports/${list}.csv?${query}`).set(headers);
  expect([page.status, taken.status, taken.type], taken.text).toEqual([200, 200, "text/csv"]);
});

test("a list that has rows links to its export with all that", async () => {
  const office = service.as(service.firm.people.office);
  await office.post("/api/v1/customers").send({ name: "Hanne Osei" });
  const headers = {
    accept: "text/html",
    cookie: `__Host-access=${service.firm.people.office.token}`,
  };
  const page = await service.anonymous.get("/customers?name=osei&sort=-name").set(headers);
  const href = /class="export" href="([^"]+)"/.exec(page.text)?.[1];
  const query = new URL(href!.replaceAll("&amp;", "&").replaceAll("&#x3D;", "="), "http://x");
  expect(query.pathname).toBe("/api/v1/exports/customers.csv");
  expect(query.searchParams.get("name")).toBe("osei");
  expect(query.searchParams.get("sort")).toBe("-name");
  expect((await service.anonymous.get(query.pathname + query.search).set(headers)).status).toBe(
    200,
  );
});
