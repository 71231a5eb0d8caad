import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { startService, type TestService } from "../support/app.ts";
import { fieldsOf, nextOf, registryDesk } from "../support/registry-desk.ts";

const NOW = new Date("2026-11-25T12:00:00Z");
let service: TestService;
let desk: Awaited<ReturnType<typeof registryDesk>>;
beforeAll(async () => {
  service = await startService({ now: () => NOW });
  desk = await registryDesk(service);
});
afterAll(() => service.stop());

describe("a customer", () => {
  test("is taken on by form, edited, and the edit undone from the banner", async () => {
    const made = await desk.post("/customers", { name: "Hanne Osei", phone: "1", email: "" });
    expect(made.status).toBe(303);
    const path = made.headers.location as string;
    const fields = fieldsOf((await desk.page(`${path}/edit`)).text);
    expect(fields).toMatchObject({ name: "Hanne Osei", phone: "1", version: "1" });
    const saved = await desk.post(path, { ...fields, name: "H. Osei", phone: "" });
    expect(saved.headers.location).toMatch(/\?saved=[\w-]+$/);
    const banner = await desk.page(saved.headers.location as string);
    expect(banner.text).toMatch(/role="status">\s*<p><strong>Saved\.<\/strong> .*H\. Osei/);
    const { changeId = "" } = fieldsOf(banner.text);
    const undone = await desk.post(`${path}/undo`, { changeId });
    expect(undone.status).toBe(303);
    expect((await desk.page(undone.headers.location as string)).text).toContain("Put back.");
    const { body } = await desk.as().get(`/api/v1${path}`);
    expect([body.name, body.phone]).toEqual(["Hanne Osei", "1"]);
  });

  test("with a slip in the form keeps what was typed and points at the field", async () => {
    const reply = await desk.post("/customers", { name: "Bo Vance", email: "not an address" });
    expect(reply.status).toBe(422);
    expect(reply.text).toContain('value="not an address"');
    expect(reply.text).toMatch(
      /<input id="email"[^>]*aria-invalid="true"[^>]*aria-describedby="email-problem/,
    );
    expect(reply.text).toContain('id="email-problem"');
  });

  test("edited by two at once tells the second, and keeps what they typed", async () => {
    const { headers } = await desk.post("/customers", { name: "One" });
    const path = headers.location as string;
    const fields = fieldsOf((await desk.page(`${path}/edit`)).text);
    await desk.post(path, { ...fields, name: "Two" });
    const second = await desk.post(path, { ...fields, name: "Three" });
    expect(second.status).toBe(422);
    expect(second.text).toContain("changed since you read it");
    expect(second.text).toContain('value="Three"');
  });

  test("that cannot be archived says why, and the way back", async () => {
    const reply = await desk.post(`/customers/${desk.customerId}/archive`, {
      version: "1",
      archived: "true",
    });
    expect(reply.status).toBe(409);
    expect(reply.text).toMatch(/<li>S-2026-\d+ has J-[\w-]+ open<\/li>/);
    expect(reply.text).toContain(`href="/customers/${desk.customerId}"`);
  });

  test("with a double is merged from its page, and taken apart again", async () => {
    const [from = "", into = ""] = await Promise.all(
      ["Quillon Ferrars", "Quilon Ferrars"].map(
        async (name) => (await desk.post("/customers", { name })).headers.location as string,
      ),
    );
    expect((await desk.page(from)).text).toContain("This may be the same as");
    const choice = await desk.page(`${from}/merge`);
    const intoId = into.split("/").at(-1) ?? "";
    expect(choice.text).toContain(`value="${intoId}"`);
    expect((await desk.post(`${from}/merge`, { intoId })).headers.location).toBe(into);
    const led = await desk.page(from);
    expect([led.status, led.headers.location]).toEqual([
      303,
      expect.stringMatching(`^${into}\\?was=C-`),
    ]);
    const merged = await desk.page(led.headers.location as string);
    expect(merged.text).toContain("was merged into this one.");
    const { mergeId = "" } = fieldsOf(merged.text);
    expect((await desk.post(`${into}/merge-undo`, { mergeId })).headers.location).toBe(into);
    expect((await desk.page(from)).status).toBe(200);
  });
});

describe("lists", () => {
  test("of customers sort, filter and page without losing or doubling a row", async () => {
    for (let index = 0; index < 45; index += 1) {
      await desk
        .as()
        .post("/api/v1/customers")
        .send({ name: `Paged ${String(index % 20).padStart(2, "0")}` });
    }
    const rows: string[] = [];
    let path: string | undefined = "/customers?name=paged&sort=-name";
    while (path) {
      const reply: { text: string } = await desk.page(path);
      rows.push(
        ...[...reply.text.matchAll(/<td><a href="\/customers\/([\w-]+)">/g)].map(
          ([, id]) => `${id}`,
        ),
      );
      path = nextOf(reply.text);
    }
    expect([rows.length, new Set(rows).size]).toEqual([45, 45]);
    const first = await desk.page("/customers?name=paged&sort=-name");
    const head = first.text.replaceAll("&#x3D;", "=");
    expect(head).toMatch(
      /"descending"><a class="sort" href="\/customers\?name=paged&amp;sort=name"/,
    );
    expect(first.text.indexOf("Paged 19")).toBeLessThan(first.text.indexOf("Paged 18"));
  });

  test.each([
    ["/customers?name=zzqq", "Nothing fits these filters."],
    ["/sites?place=zzqq", "Nothing fits these filters."],
    ["/units?serial=ZZQQ", "Nothing fits these filters."],
    ["/instruments", "There is no instrument yet."],
    ["/sites?place=LANTERNMAKER", "17 Lanternmaker Row"],
    ["/sites?sort=-customer", "17 Lanternmaker Row"],
    ["/sites?sort=addressLine&region=uk", "17 Lanternmaker Row"],
    ["/sites?archived=true", "Nothing fits these filters."],
    ["/units?state=installed&sort=site", "installed"],
  ])("%s shows %s", async (path, text) => {
    const reply = await desk.page(path);
    expect([reply.status, reply.text.includes(text)]).toEqual([200, true]);
  });

  test.each([
    "/customers?cursor=x",
    "/sites?sort=password",
    "/units?modelId=1",
    "/sites/x",
    "/customers?cursor=WzEsMl0",
  ])("%s is refused as bad input", async (path) => {
    expect((await desk.page(path)).status).toBe(422);
  });

  test("of customers are not for installers; the others are", async () => {
    expect((await desk.page("/customers", "installer")).status).toBe(403);
    expect((await desk.page(`/customers/${desk.customerId}`, "installer")).status).toBe(403);
    for (const path of [
      "/sites",
      "/units",
      "/instruments",
      `/sites/${desk.site.id}`,
      `/units/${desk.unit.id}`,
    ]) {
      const reply = await desk.page(path, "installer");
      expect([path, reply.status]).toEqual([path, 200]);
      expect(reply.text).not.toContain('href="/customers');
    }
  });

  test("of another firm show nothing of this one", async () => {
    const other = await service.addFirm("birch");
    const theirs = (path: string) =>
      service.as(other.people.office).get(path).set("accept", "text/html");
    expect((await theirs(`/sites/${desk.site.id}`)).status).toBe(404);
    expect((await theirs(`/customers/${desk.customerId}`)).status).toBe(404);
    expect((await theirs(`/units/${desk.unit.id}`)).status).toBe(404);
    expect((await theirs("/sites")).text).toContain("There is no site yet.");
  });
});
