import { uuidv7 } from "uuidv7";
import { afterAll, beforeAll, expect, test } from "vitest";
import { startService, type TestService } from "../support/app.ts";
import { queueOne } from "../support/outbox.ts";
import { addModel, receive } from "../support/stock.ts";

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
  ["/nonconformances", "nonconformances", "state=open&kind=audit&overdue=true"],
  ["/concessions", "concessions", `state=expiring&q=j-2026&grantedById=${id}&sort=-expires`],
  ["/goods-in/stock", "stock", `modelId=${id}&place=Depot&serial=fs1&standing=reserved`],
  ["/warranty", "warranty", `state=at-risk&modelId=${id}&siteId=${id}&sort=-endsOn`],
  ["/warranty", "warranty", "registration=open&registerBefore=2027-01-01"],
  ["/outbox", "mails", "state=waiting&kind=notice&recipient=rook&sort=-recipient"],
  ["/firmware/releases", "releases", `modelId=${id}&severity=safety&withdrawn=true&sort=-level`],
  ["/fleet", "fleet-levels", "code=cairn&sort=-units"],
  ["/warranty/calendar", "warranty-days", "month=2027-02&kind=ends&sort=-serial"],
  ["/warranty/calendar", "warranty-days", "year=2027&kind=&sort=site"],
  ["/notices", "notices", "kind=firmware-due&sort=subject"],
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

/** Links to exports of a page, with the status and type of what they lead to. */
async function exportsOn(path: string, role: "office" | "manager" | "installer") {
  const headers = {
    accept: "text/html",
    cookie: `__Host-access=${service.firm.people[role].token}`,
  };
  const page = await service.anonymous.get(path).set(headers);
  expect(page.status).toBe(200);
  const links = [...page.text.matchAll(/class="export" href="([^"]+)"/g)].map(([, href = ""]) =>
    href.replaceAll("&amp;", "&").replaceAll("&#x3D;", "="),
  );
  for (const link of links) {
    const { status, type } = await service.anonymous.get(link).set(headers);
    expect([link, status, type]).toEqual([link, 200, "text/csv"]);
  }
  return links.map((link) => link.replace("/api/v1/exports/", ""));
}

test("lists without a page of their own leave from the page where they are looked at", async () => {
  expect(await exportsOn("/jobs", "office")).toEqual([
    "jobs.csv?state=open&sort=-opened",
    "snags.csv",
    "concessions.csv",
  ]);
  expect(await exportsOn("/notices", "office")).toEqual(["notices.csv", "due-list-records.csv"]);
  expect(await exportsOn("/diary?day=2026-11-25", "office")).toEqual([
    "visits.csv?from=2026-11-23&to=2026-11-29",
  ]);
});

test("notices of all are not offered to an installer, who may not take them", async () => {
  expect(await exportsOn("/notices", "installer")).toEqual([]);
});

test("nonconformances, stock, releases and mails link to their exports", async () => {
  const office = service.as(service.firm.people.office);
  await office.post("/api/v1/nonconformances").send({ kind: "work", title: "Wrong bit used" });
  const model = await addModel(service, { code: "CAIRN-LINK" });
  await receive(service, model.id);
  await service
    .as(service.firm.people.owner)
    .post("/api/v1/firmware/releases")
    .send({
      ...{ modelId: model.id, level: "2.4.0", severity: "safety", releasedOn: "2026-11-20" },
    });
  await queueOne(service);
  expect(await exportsOn("/nonconformances?state=open", "office")).toEqual([
    "nonconformances.csv?state=open&sort=-opened",
  ]);
  expect(await exportsOn("/goods-in/stock?standing=free", "office")).toEqual([
    "stock-counts.csv",
    "stock.csv?standing=free&sort=-received",
  ]);
  expect(await exportsOn("/firmware/releases", "manager")).toEqual(["releases.csv?sort=model"]);
  expect(await exportsOn("/outbox?state=waiting", "office")).toEqual([
    "mails.csv?state=waiting&sort=-written",
  ]);
});
