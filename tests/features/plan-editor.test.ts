import { afterAll, beforeAll, expect, test } from "vitest";
import { startService, type TestService } from "../support/app.ts";

let service: TestService;
beforeAll(async () => {
  service = await startService();
});
afterAll(async () => service.stop());

const page = (path: string) =>
  service.as(service.firm.people.manager).get(path).set("accept", "text/html");
const post = (path: string, form: object) =>
  service.as(service.firm.people.manager).post(path).type("form").send(form);

const versionOn = (text: string): string => /name="version" value="(\d+)"/.exec(text)?.[1] ?? "";

/** Posts a form of the version's page as it stands now. */
async function edit(here: string, form: object) {
  const { text } = await page(here);
  const reply = await post(`${here}/edits`, { version: versionOn(text), ...form });
  expect(reply.status).toBe(303);
  return reply.headers.location as string;
}

test("a plan is built, tried, published and used without touching its document", async () => {
  const taken = await post("/plans/new", { code: "garage", title: "Garage" });
  expect(taken.status).toBe(422);
  expect(taken.text).toContain("must be 2 to 32 capitals");
  const made = await post("/plans/new", { code: "GARAGE", title: "Garage pack" });
  const here = made.headers.location as string;
  expect((await page(here)).text).toContain("This plan has no stage yet.");
  await edit(here, { action: "add-stage", title: "Electrical" });
  const item = await edit(here, {
    ...{ action: "add-item", stageId: "stage", kind: "measure", title: "Pack voltage" },
  });
  expect(item).toBe(`${here}/items/pack_voltage`);
  const form = await page(item);
  expect(form.text).toContain('data-shows="limit"');
  const unfinished = await page(here);
  expect(unfinished.text).toContain("stand in the way of publishing");
  const saved = await post(item, {
    ...{ version: versionOn(form.text), id: "pack_voltage", title: "Pack voltage" },
    ...{ do: "Measure at the terminals.", unit: "V", holdPoint: "true", limitForm: "range" },
    ...{ least: "43,2", most: "55.2", repeat: "once" },
  });
  expect(saved.headers.location).toBe(`${here}#item-pack_voltage`);
  expect((await page(here)).text).toContain("43.2 to 55.2 V");
  const trial = await page(`${here}/trial`);
  expect(trial.text).toContain("The gate would open.");
  const low = await post(`${here}/trial`, { sent: "true", a0: "36.9" });
  expect(low.text).toContain("Read 36.9 V; needed at least 43.2 V and at most 55.2 V.");
  expect(low.text).toContain("1 thing would stand in the way");
  const published = await post(`${here}/publication`, {
    version: versionOn((await page(here)).text),
  });
  expect(published.status).toBe(303);
  const frozen = await page(here);
  expect(frozen.text).toContain("It does not change any more");
  expect(frozen.text).not.toContain('action="add-item"');
});

test("an edit is taken back once, and a stale one is refused instead of overwriting", async () => {
  const made = await post("/plans", { starter: "wall-mounted-packs", code: "WALL-A" });
  expect(made.status).toBe(303);
  const list = await page("/plans");
  const id = /\/plans\/([0-9a-f-]{36})"><strong>Wall/.exec(list.text)?.[1];
  const here = `/plans/${id}/versions/1`;
  const before = await page(here);
  const stale = versionOn(before.text);
  const first = /id="item-([a-z_]+)"/.exec(before.text)?.[1] ?? "";
  await edit(here, { action: "remove-item", itemId: first });
  expect((await page(here)).text).not.toContain(`id="item-${first}"`);
  const late = await post(`${here}/edits`, {
    ...{ version: stale, action: "move-item", itemId: first, by: "1" },
  });
  expect(late.status).toBe(409);
  const undone = await post(`${here}/undo`, { version: versionOn((await page(here)).text) });
  expect(undone.status).toBe(303);
  expect((await page(here)).text).toContain(`id="item-${first}"`);
  const again = await post(`${here}/edits`, {
    ...{ version: stale, action: "move-item", itemId: first, by: "1" },
  });
  expect(again.status).toBe(412);
});

test("an item's name that another has is told in its form, and what was typed stays", async () => {
  const list = await page("/plans");
  const id = /\/plans\/([0-9a-f-]{36})"><strong>Wall/.exec(list.text)?.[1];
  const here = `/plans/${id}/versions/1`;
  const text = (await page(here)).text;
  const [first = "", second = ""] = [...text.matchAll(/id="item-([a-z_]+)"/g)].map(
    ([, n]) => `${n}`,
  );
  const reply = await post(`${here}/items/${first}`, {
    ...{ version: versionOn(text), id: second, title: "Typed anew", do: "x", repeat: "once" },
  });
  expect(reply.status).toBe(422);
  expect(reply.text).toContain(`Another item is named ${second}.`);
  expect(reply.text).toContain('value="Typed anew"');
});

test("installers do not reach the editor, the office reads and cannot change", async () => {
  const { installer, office } = service.firm.people;
  expect((await service.as(installer).get("/plans/new")).status).toBe(403);
  const list = await page("/plans");
  const id = /\/plans\/([0-9a-f-]{36})"><strong>Wall/.exec(list.text)?.[1];
  const seen = await service.as(office).get(`/plans/${id}/versions/1`).set("accept", "text/html");
  expect(seen.status).toBe(200);
  expect(seen.text).not.toContain('value="add-item"');
  const refused = await service.as(office).post(`/plans/${id}/versions/1/edits`).send({});
  expect(refused.status).toBe(403);
});
