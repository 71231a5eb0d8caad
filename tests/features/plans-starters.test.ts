import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { z } from "zod";
import { readOptions } from "../../src/cli/firm.ts";
import { inFirm } from "../../src/db/scope.ts";
import { copyAllStarters } from "../../src/features/plans/copy-starter.ts";
import { STARTER_PLANS } from "../../src/features/plans/starter-plans.ts";
import { startService, type TestService } from "../support/app.ts";
import { nextOf, pointers } from "../support/reading.ts";

let service: TestService;
beforeAll(async () => {
  service = await startService();
});
afterAll(() => service.stop());

const manager = () => service.as(service.firm.people.manager);
const names = STARTER_PLANS.map(({ name }) => name);

describe("starter plans", () => {
  test("are listed page by page with what they are for and how much they ask", async () => {
    const first = await manager().get("/api/v1/starter-plans?limit=3");
    expect(first.status).toBe(200);
    const found: { name: string }[] = [...first.body.items];
    for (let page = first; page.body.next !== null; ) {
      page = await manager().get(nextOf(page));
      found.push(...page.body.items);
    }
    expect(found.map(({ name }) => name)).toEqual(names);
    const survey = STARTER_PLANS.find(({ name }) => name === "site-survey")!;
    expect(found.find(({ name }) => name === "site-survey")).toMatchObject({
      title: survey.document.title,
      description: survey.description,
      stages: survey.document.stages.length,
      items: survey.document.stages.flatMap(({ items }) => items).length,
    });
  });

  test("refuse a cursor that is none of theirs", async () => {
    const cursor = Buffer.from("nothing").toString("base64url");
    const reply = await manager().get(`/api/v1/starter-plans?cursor=${cursor}`);
    expect([reply.status, pointers(reply)]).toEqual([422, ["/query/cursor"]]);
  });

  test("give their document away, and 404 where there is none of that name", async () => {
    const { installer } = service.firm.people;
    const reply = await service.as(installer).get("/api/v1/starter-plans/goods-in");
    expect(reply.body).toEqual(STARTER_PLANS.find(({ name }) => name === "goods-in")!.document);
    expect((await manager().get("/api/v1/starter-plans/constructor")).status).toBe(404);
  });
});

describe("a plan from a starter", () => {
  test("is a draft with its document, called as the starter is or as is wished", async () => {
    const plain = await manager()
      .post("/api/v1/plans")
      .send({ code: "GOODS", starter: "goods-in" });
    expect([plain.status, plain.body.title]).toEqual([201, "Goods-in check"]);
    expect(plain.body).toMatchObject({ published: null, draft: { number: 1, state: "draft" } });
    const named = await manager()
      .post("/api/v1/plans")
      .send({ code: "GOODS-2", starter: "goods-in", title: "At our gate" });
    const draft = await manager().get(`/api/v1/plans/${named.body.id}/versions/1`);
    expect(draft.body).toMatchObject({
      publishable: true,
      document: { title: "At our gate", schema: "plan/1" },
    });
    const published = await manager().post(`/api/v1/plans/${named.body.id}/versions/1/publication`);
    expect(published.status).toBe(201);
  });

  test("is refused with the pointer of what does not fit", async () => {
    const post = (body: object) => manager().post("/api/v1/plans").send(body);
    const unknown = await post({ code: "NONE", starter: "nothing" });
    expect([unknown.status, pointers(unknown)]).toEqual([422, ["/body/starter"]]);
    const both = await post({ code: "BOTH", starter: "goods-in", document: {} });
    expect([both.status, pointers(both)]).toEqual([422, ["/body/starter"]]);
    const neither = await post({ code: "BARE" });
    expect([neither.status, pointers(neither)]).toEqual([422, ["/body/title"]]);
    const office = await service
      .as(service.firm.people.office)
      .post("/api/v1/plans")
      .send({ code: "OFFICE", starter: "goods-in" });
    expect(office.status).toBe(403);
  });

  test("comes once however often a post with one key is sent", async () => {
    const post = () =>
      manager()
        .post("/api/v1/plans")
        .set("idempotency-key", "starter-once")
        .send({ code: "ONCE", starter: "site-survey" });
    const [one, two] = [await post(), await post()];
    expect([one.status, two.status]).toEqual([201, 201]);
    expect(two.body.id).toBe(one.body.id);
  });
});

describe("a new firm", () => {
  test("may get drafts of all of them", async () => {
    const { firmId } = await service.addFirm("rowan");
    const plans = await inFirm(service.db, firmId, (tx) => copyAllStarters(tx, "en"));
    expect(plans.map(({ code }) => code)).toEqual(STARTER_PLANS.map(({ code }) => code));
    expect(plans.every(({ versions }) => versions[0]?.state === "draft")).toBe(true);
  });

  test("is asked by an option without a value whether it wants them", () => {
    const schema = z.object({ name: z.string(), "starter-plans": z.boolean().default(false) });
    const wanted = readOptions(schema, ["--name", "Fern", "--starter-plans"]);
    expect(wanted).toEqual({ name: "Fern", "starter-plans": true });
    expect(readOptions(schema, ["--name", "Fern"])["starter-plans"]).toBe(false);
  });
});

describe("the page of plans", () => {
  const page = (role: "manager" | "office" | "installer", path = "/plans") =>
    service.as(service.firm.people[role]).get(path).set("accept", "text/html");

  test("shows the firm's plans and the starters, which a manager copies by a form", async () => {
    const { text } = await page("manager");
    expect(text).toContain("Plans to begin with");
    expect(text).toContain("Copy as STACK-BANK");
    const copied = await service
      .as(service.firm.people.manager)
      .post("/plans")
      .type("form")
      .send({ starter: "stacked-bank", code: "STACK-BANK" });
    expect([copied.status, copied.headers.location]).toEqual([303, "/plans"]);
    const after = await page("manager");
    expect(after.text).toContain("STACK-BANK is there");
    expect(after.text).toContain("draft");
  });

  test("is in the menu of the office, which copies nothing; installers do not see it", async () => {
    const { text } = await page("office");
    expect(text).toContain('href="/plans" aria-current="page"');
    expect(text).not.toContain("Copy as");
    const today = await page("installer", "/today");
    expect(today.text).not.toContain('href="/plans"');
    expect((await page("installer")).status).toBe(403);
  });
});
