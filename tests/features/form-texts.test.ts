// A text that is looked at in a form and saved again comes back as it was. How a browser reads a
// page and sends a form is asked of a real one in tests/browser/form-texts.test.ts.
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import { startService, type TestService } from "../support/app.ts";

let service: TestService;
beforeAll(async () => {
  service = await startService();
});
afterAll(() => service.stop());

const office = () => service.as(service.firm.people.office);

test("line ends of a posted form come back as they were shown", async () => {
  const posted = await office()
    .post("/customers")
    .type("form")
    .send({ name: "Kim", note: "\r\nGate code\r\n\t4711 & <b>\r\n" });
  expect(posted.status, posted.text).toBe(303);
  const [customer] = (await office().get("/api/v1/customers?name=Kim")).body.items;
  expect(customer.note).toBe("\nGate code\n\t4711 & <b>\n");
});

test("so do those of the firm's address, which may have so many lines", async () => {
  const owner = service.as(service.firm.people.owner);
  const { version } = (await owner.get("/api/v1/firm")).body;
  const fields = { name: "Alder", timeZone: "Europe/London", unitSystem: "metric", language: "en" };
  const address = "Mill Lane 4\r\nHolmbridge";
  const form = { ...fields, colour: "#14524d", version, address };
  const saved = await owner.post("/firm").type("form").send(form);
  expect(saved.status, saved.text.slice(0, 3000)).toBe(303);
  expect((await owner.get("/api/v1/firm")).body.address).toBe("Mill Lane 4\nHolmbridge");
});

// RFC 3629, section 4: FF is in no UTF-8; a percent sign by itself stands in no form (URL, 5.2).
test.each(["name=%FF", "name=%", "name=%C3"])("the form %s is refused", async (body) => {
  const reply = await office().post("/customers").type("form").send(body);
  expect([reply.status, reply.body.type]).toEqual([400, "/problems/unreadable-body"]);
});

test("a name that stands twice keeps both of its texts", async () => {
  const owner = service.as(service.firm.people.owner);
  const form = "roles=owner&roles=manager";
  const posted = await owner.post("/people/two-step-roles").type("form").send(form);
  expect(posted.status, posted.text).toBe(303);
  const { roles } = (await owner.get("/api/v1/firm/two-step-roles")).body;
  expect(roles).toEqual(["owner", "manager"]);
});

test("every textarea of a page is filled so that no line end is lost", () => {
  const folder = new URL("../../templates/", import.meta.url).pathname;
  const files = readdirSync(folder, { recursive: true, encoding: "utf8" });
  const textarea = /<textarea(?:[^>{]|\{\{[^}]*\}\})*>(.*?)<\/textarea>/gs;
  const filled = files
    .filter((name) => name.endsWith(".hbs"))
    .flatMap((name) => [...readFileSync(join(folder, name), "utf8").matchAll(textarea)])
    .map(([, content]) => content!)
    .filter((content) => content !== "");
  expect(filled.length).toBeGreaterThanOrEqual(6);
  for (const content of filled) {
    expect(content).toMatch(/^(\{\{#if [^{}]*\}\})?\{\{lines [\w.]+\}\}(\{\{\/if\}\})?$/);
  }
});
