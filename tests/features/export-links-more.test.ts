// Lists that have no page of their own are taken away from the page where a person looks for them.
import { parse } from "csv-parse/sync";
import { afterAll, beforeAll, expect, test } from "vitest";
import type { Role } from "../../src/web/roles.ts";
import { startService, type TestService } from "../support/app.ts";
import { addBank, SWITCH_MAP } from "../support/bank-rows.ts";
import { exported, readPage } from "../support/list-walk.ts";
import { addSite } from "../support/stock.ts";
import { savedSurvey, surveyBody } from "../support/survey-rows.ts";

let service: TestService;
beforeAll(async () => {
  service = await startService();
});
afterAll(() => service.stop());

async function linksOn(path: string, role: Role): Promise<string[]> {
  const { text, status } = await readPage(service, path, role);
  expect(status, path).toBe(200);
  return [...text.matchAll(/class="export" href="([^"]+)"/g)].map(([, href = ""]) => href);
}

test("a site's banks are taken away from its page, and only where it has one", async () => {
  const { site, units } = await addBank(service, SWITCH_MAP, [1, 2]);
  const [link = ""] = await linksOn(`/sites/${site.id}`, "installer");
  expect(link).toBe(`/api/v1/exports/banks.csv?siteId=${site.id}`);
  const taken = await readPage(service, link, "installer");
  expect(taken.status).toBe(200);
  expect(taken.text).toContain(units.map(({ serial }) => serial).join(" "));
  const bare = await addSite(service);
  expect(await linksOn(`/sites/${bare.id}`, "installer")).toEqual([]);
});

test("rule packs are taken away from the survey that is judged by one", async () => {
  const site = await addSite(service);
  await savedSurvey(service, site.id, surveyBody());
  const [link = ""] = await linksOn(`/sites/${site.id}/survey`, "office");
  expect(link).toBe("/api/v1/exports/rule-packs.csv");
  const taken: { id: string }[] = parse((await readPage(service, link, "office")).text, {
    ...{ columns: true, bom: true },
  });
  const office = service.as(service.firm.people.office);
  const listed: { id: string }[] = (await office.get("/api/v1/rule-packs")).body.items;
  expect(taken.map(({ id }) => id).toSorted()).toEqual(listed.map(({ id }) => id).toSorted());
  expect(taken.length).toBeGreaterThan(0);
});

test("the quarantine is taken away from the page of what is held, by who may read it", async () => {
  const link = "/api/v1/exports/quarantine.csv";
  expect(await linksOn("/held", "manager")).toEqual([link]);
  expect((await readPage(service, link, "manager")).status).toBe(200);
  expect(await linksOn("/held", "office")).toEqual([]);
  expect((await readPage(service, link, "office")).status).toBe(403);
});

test("a firm has twenty webhooks at most, which its page says; all of them are on it", async () => {
  const owner = service.as(service.firm.people.owner);
  const post = (index: number) =>
    owner
      .post("/api/v1/webhooks")
      .send({ url: `https://hooks${index}.partner.example/in`, kinds: ["firmware.due"] });
  for (let index = 0; index < 20; index += 1) expect((await post(index)).status).toBe(201);
  const refused = await post(20);
  expect(refused.status).toBe(409);
  expect(refused.body.detail).toBe("A firm has at most 20 webhooks. Change one of them.");
  const { text } = await readPage(service, "/webhooks", "owner");
  expect(text).toContain("A firm has at most 20.");
  expect(text.match(/<a class="long" href="\/webhooks\//g)).toHaveLength(20);
  expect(await exported(service, "/webhooks", "owner")).toHaveLength(20);
});
