// Kit, goods-in and stock on pages, as they come without any script.
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { UNPACK_CHECKS } from "../../src/domain/kit/unpack-checks.ts";
import { amountText, nameText, noteText } from "../../src/features/kit/words.ts";
import type { Client } from "../support/app.ts";
import { type KitWork, startKitWork } from "../support/kit-work.ts";

const TOOL = {
  ...({ category: "tool", amount: 1, countedIn: "piece" } as const),
  ...{ perPerson: false, notes: [], sources: [] },
};
let work: KitWork;
beforeAll(async () => {
  work = await startKitWork();
});
afterAll(() => work.service.stop());

const as = (role: "office" | "installer" | "manager" | "auditor"): Client =>
  work.service.as(work.service.firm.people[role]);
const post = async (path: string, fields: object, client = as("office")) =>
  client.post(path).type("form").send(fields);
const page = async (path: string, client = as("office")) => (await client.get(path)).text;
const words = (html: string): string => html.replaceAll(/<[^>]+>/g, " ").replaceAll(/\s+/g, " ");

test("a kit is ticked and taken back by several people, and printed with boxes", async () => {
  const jobId = await work.openJob([await work.rows.unit(work.modelId)]);
  const path = `/jobs/${jobId}/kit`;
  const first = await page(path);
  expect(words(first)).toContain("0 of 9 packed");
  expect(words(first)).toContain("4 pieces Through-bolt M10");
  expect(words(first)).toContain("1 piece each Mask");
  expect(words(first)).toContain("Each carries 49 N in shear");
  expect(words(first)).toContain("The site has no survey");
  expect(words(first)).toContain("Comes with the units");
  expect(first.match(/class="box"/g)).toHaveLength(9);
  const tick = { lineKey: "tool:multimeter", line: "3" };
  expect((await post(`${path}/ticks`, tick)).headers.location).toBe(`${path}#line-3`);
  await post(`${path}/ticks`, tick, as("installer"));
  const ticked = await page(path);
  expect(words(ticked)).toContain("1 of 9 packed");
  expect(words(ticked)).toMatch(/✓ office person .*✓ installer person/);
  const [, undo = ""] = /action="([^"]+\/undo)"/.exec(ticked) ?? [];
  expect((await post(undo, { line: "3" }, as("manager"))).status).toBe(303);
  expect(words(await page(path))).not.toContain("✓ office person");
  expect(await page(path, as("auditor"))).not.toContain("<form method");
  expect((await post(`${path}/ticks`, tick, as("auditor"))).status).toBe(403);
});

test("names and reasons of a kit are in the reader's language, amounts in the firm's units", () => {
  const reader = { language: "es", unitSystem: "us" } as const;
  const tool = { key: "tool:multimeter", toolClass: "multimeter", name: "multimeter" };
  expect(nameText({ ...tool, ...TOOL }, "es")).toBe("Multímetro");
  expect(noteText({ code: "shear-each", newtons: 1270 }, reader)).toContain("1270 N a cortante");
  // 53 kg / 0.45359237 kg = 116.8 lb (NIST SP 811).
  const heavy = { code: "two-people-most", heaviestKg: 53, mostKg: 33 } as const;
  expect(noteText(heavy, reader)).toContain("tiene 116.8 lb");
  expect(amountText({ amount: 1.5, countedIn: "m", perPerson: true }, "es")).toBe(
    "1,5 m por persona",
  );
});

describe("goods-in by form", () => {
  const good = Object.fromEntries(UNPACK_CHECKS.map((check) => [check, "good"]));
  const take = (fields: object, client = as("office")) =>
    post("/goods-in", { modelId: work.modelId, place: "Rack 1", ...good, ...fields }, client);

  test("takes a unit in and keeps model, place and papers for the next one", async () => {
    const reply = await take({ serial: "HN00000011", deliveryNote: "DN-1" });
    expect(reply.status).toBe(303);
    const next = await page(reply.headers.location as string);
    expect(words(next)).toContain("HERON-W HN00000011 is in stock at Rack 1.");
    expect(next).toContain(`<option value="${work.modelId}" selected>`);
    expect(next).toContain('value="DN-1"');
    expect(next).toContain('name="serial" type="text" value=""');
  });

  test.each([
    ["a GS1 element string", "(01)09506000134352(21)HN00000012"],
    ["a Digital Link URI", "https://id.example/01/09506000134352/21/HN00000013"],
  ])(
    "reads the serial out of %s (GS1 General Specifications, Digital Link)",
    async (_how, serial) => {
      const reply = await take({ serial });
      expect(reply.status).toBe(303);
      expect(words(await page(reply.headers.location as string))).toMatch(
        /HN0000001[23] is in stock/,
      );
    },
  );

  test("shows the caution for damaged cells before anything else", async () => {
    const reply = await take({ serial: "HN00000014", casing: "bad" });
    const next = await page(reply.headers.location as string);
    expect(next).toMatch(
      /role="alert"[\s\S]*in quarantine[\s\S]*fire service[\s\S]*local codes prevail/,
    );
  });

  test.each([
    [{ serial: "HN1" }, "serial"],
    [{ serial: "HN00000015", place: "" }, "place"],
    [{ serial: "" }, "serial"],
  ])("%j comes back with what was typed", async (fields, field) => {
    const reply = await take({ note: "Typed note", ...fields });
    expect(reply.status).toBe(422);
    expect(reply.text).toContain("Typed note");
    expect(reply.text).toMatch(new RegExp(`id="${field}"[\\s\\S]*?class="problem"`));
  });

  test("asks for what was not looked at, beside the check itself", async () => {
    const reply = await take({ serial: "HN00000016", terminals: "not-looked-at" });
    expect(reply.status).toBe(422);
    expect(words(reply.text)).toContain("Terminals ▲ is to be looked at before");
  });

  test("is not offered to those who may not", async () => {
    expect(await page("/goods-in", as("auditor"))).not.toContain('action="/goods-in"');
    expect((await take({ serial: "HN00000017" }, as("auditor"))).status).toBe(403);
  });
});

test("stock is listed by model and place, moved, set apart, released and sent back", async () => {
  const unitId = await work.rows.unit(work.modelId);
  const act = (path: string, fields: object, client = as("office")) =>
    post(`/goods-in/stock/${unitId}/${path}`, fields, client);
  expect((await act("place", { place: "Barn 7" })).status).toBe(303);
  const there = await page("/goods-in/stock?place=Barn+7");
  expect(there.split("<table").at(-1)).toMatch(/data-label="Place">Barn 7<[\s\S]*value="Barn 7"/);
  expect((await act("quarantine", { reason: "Dropped" })).status).toBe(303);
  const apart = await page("/goods-in/stock?standing=quarantined");
  expect(apart).toContain(`/goods-in/stock/${unitId}/return-to-maker`);
  expect(apart).not.toContain("quarantine-release");
  expect(await page("/goods-in/stock", as("manager"))).toContain("quarantine-release");
  expect((await act("quarantine-release", { reason: "Sound" })).status).toBe(403);
  expect((await act("quarantine-release", { reason: "Sound" }, as("manager"))).status).toBe(303);
  expect((await act("return-to-maker", { reason: "Wrong model" })).status).toBe(303);
  expect(words(await page("/goods-in/stock?place=Barn+7"))).toContain("No such unit is in stock.");
});

test("consumables are taken up and moved by form, and low ones are marked", async () => {
  expect(words(await page("/goods-in/consumables"))).toContain("There is no consumable.");
  const fields = { code: "bolt-m12", name: "Bolt", countedIn: "piece", leastAmount: "20" };
  const reply = await post("/goods-in/consumables", fields);
  expect(reply.status).toBe(303);
  const path = reply.headers.location as string;
  const twice = await post("/goods-in/consumables", fields);
  expect([twice.status, words(twice.text)]).toMatchObject([422, /BOLT-M12 already/]);
  const move = (more: object) => post(`${path}/movements`, { place: "Shelf", ...more });
  expect((await move({ kind: "received", amount: "12,5" })).status).toBe(303);
  expect(words(await page(path))).toContain("12.5 pieces ▲ order more");
  const tooMuch = await move({ kind: "used", amount: "13" });
  expect([tooMuch.status, words(tooMuch.text)]).toMatchObject([422, /Count them/]);
  expect(tooMuch.text).toContain('value="13"');
  const odd = await move({ kind: "used", amount: "many" });
  expect([odd.status, odd.text]).toMatchObject([422, /id="amount-problem"/]);
  expect(words(await page("/goods-in/consumables?code=M12"))).toContain("Shelf: 12.5 pieces");
});

test("what is missing for a day is told visit by visit, or that nothing is", async () => {
  expect(words(await page("/goods-in/tomorrow"))).toContain("No visit is booked on this day.");
  const jobId = await work.openJob([await work.rows.unit(work.modelId)]);
  const local = { day: "2026-11-21", from: "09:00", to: "10:00" };
  await as("office").post(`/api/v1/jobs/${jobId}/visits`).send({ crewId: work.crewId, local });
  const text = words(await page("/goods-in/tomorrow"));
  expect(text).toContain("1 visit is booked; for 1 something is missing.");
  expect(text).toContain("4 needed; no consumable has this code");
  expect(text).toContain("Multimeter Nobody booked one for this visit.");
  expect((await as("office").get("/goods-in/tomorrow?day=2026-13-01")).status).toBe(422);
});
