// Kit lines as people type them, on product models and on plans.
import fc from "fast-check";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { CATEGORIES, COUNTED_IN, type ModelKitLine } from "../../src/domain/kit/line.ts";
import {
  modelKitText,
  planKitText,
  readModelKit,
  readPlanKit,
} from "../../src/features/kit/kit-lines.ts";
import type { TestService } from "../support/app.ts";
import { SMALL_PLAN, startWork } from "../support/work-rows.ts";

const LINE = "anchor | Through-bolt M10 | 4 piece | pack | BOLT-M10 | Sheet 3 | Solid brick only";

test("a line says category, name, amount, where from, code, source and note", () => {
  expect(readModelKit(`${LINE}\n\ncable | Link | 0,6m | in the box | | Sheet 3`, [])).toEqual({
    ok: true,
    kit: [
      {
        ...{ id: "through-bolt-m10", category: "anchor", name: "Through-bolt M10", amount: 4 },
        ...{ countedIn: "piece", supplied: false, stockCode: "BOLT-M10", source: "Sheet 3" },
        note: "Solid brick only",
      },
      {
        ...{ id: "link", category: "cable", name: "Link", amount: 0.6, countedIn: "m" },
        ...{ supplied: true, source: "Sheet 3" },
      },
    ],
  });
});

test.each([
  ["spade | X | 1 piece | pack | | S", /^line 1: what it is: /],
  [`${LINE}\nanchor | Y | some | pack | | S`, /^line 2: amount: /],
  ["anchor | X | 1 barrel | pack | | S", /^line 1: what it is counted in: /],
  ["anchor | X | 1 piece | maybe | | S", /^line 1: "maybe" is neither/],
  ["anchor | X | 1 piece | pack | b-1 | S", /^line 1: stock code: /],
  ["anchor | X | 1 piece | pack", /^line 1: source: /],
  [`${LINE}\n${LINE}`, /must not name a line twice/],
])("%j is refused with its line", (text, problem) => {
  expect(readModelKit(text, [])).toMatchObject({
    ok: false,
    problem: expect.stringMatching(problem),
  });
});

test("of a plan it says when the thing is needed", () => {
  const text = "consumable | Caps | 4 piece | unit battery-pack | TERM-CAP | practice";
  const read = readPlanKit(text, []);
  expect(read).toMatchObject({ ok: true, kit: [{ per: "unit", ofKind: "battery-pack" }] });
  expect(read.ok && planKitText(read.kit)).toBe(text);
  const wrong = readPlanKit("consumable | Caps | 4 piece | unit spade | C | practice", []);
  expect(wrong).toMatchObject({ ok: false, problem: expect.stringContaining("kind of unit") });
});

test("what is shown reads back as it was, with the ids that ticks rest on", () => {
  const word = fc.stringMatching(/^[A-Za-z0-9äöü×,.|\\]{1,12}( [A-Za-z0-9äöü×,.|\\]{1,12}){0,3}$/);
  const line = fc.record(
    {
      id: fc.stringMatching(/^[a-z0-9][a-z0-9-]{0,20}$/),
      category: fc.constantFrom(...CATEGORIES),
      name: word,
      amount: fc.integer({ min: 1, max: 9_999_999 }).map((amount) => amount / 1000),
      countedIn: fc.constantFrom(...COUNTED_IN),
      supplied: fc.boolean(),
      source: word,
      stockCode: fc.stringMatching(/^[A-Z0-9][A-Z0-9-]{0,20}$/),
      note: word,
    },
    { requiredKeys: ["id", "category", "name", "amount", "countedIn", "supplied", "source"] },
  );
  const kit = fc
    .uniqueArray(line, { selector: ({ id }) => id, maxLength: 8 })
    .filter((lines) => new Set(lines.map(({ name }) => name)).size === lines.length);
  fc.assert(
    fc.property(kit, (lines) => {
      const typed = modelKitText(lines as ModelKitLine[]);
      expect(readModelKit(typed, lines)).toEqual({ ok: true, kit: lines });
    }),
  );
});

describe("on pages", () => {
  let service: TestService;
  beforeAll(async () => {
    ({ service } = await startWork());
  });
  afterAll(() => service.stop());

  test("a product model keeps them, and shows what is wrong beside what was typed", async () => {
    const office = service.as(service.firm.people.office);
    const fields = {
      ...{ code: "HERON-W", kind: "battery-pack", name: "Heron W", maker: "Harrowmere" },
      ...{ serialMask: "HN*{8}", serialCheck: "none", firmwareScheme: "semver", attributes: "" },
    };
    const post = (path: string, more: object) =>
      office
        .post(path)
        .type("form")
        .send({ ...fields, ...more });
    const wrong = await post("/product-models", { kit: "anchor | X" });
    expect([wrong.status, wrong.text]).toMatchObject([422, /anchor \| X<\/textarea>/]);
    expect((await post("/product-models", { kit: LINE })).status).toBe(303);
    const list = await office.get("/api/v1/product-models?code=HERON-W");
    const [model] = list.body.items;
    expect(model.kit).toMatchObject([{ id: "through-bolt-m10", stockCode: "BOLT-M10" }]);
    const page = await office.get(`/product-models/${model.id}`);
    expect(page.text).toContain(`${LINE}</textarea>`);
    const { code: _code, kind: _kind, ...rest } = fields;
    const version = String(model.version);
    const saved = await office
      .post(`/product-models/${model.id}`)
      .type("form")
      .send({ ...rest, code: "HERON-W", version, kit: LINE.replace("4 piece", "6 piece") });
    expect(saved.status).toBe(303);
    const after = await office.get(`/api/v1/product-models/${model.id}`);
    expect(after.body.kit).toMatchObject([{ id: "through-bolt-m10", amount: 6 }]);
  });

  test("a plan's draft keeps them through later edits; a published one is frozen", async () => {
    const manager = service.as(service.firm.people.manager);
    const made = await manager
      .post("/api/v1/plans")
      .send({ code: "KITTED", title: "Kitted", document: SMALL_PLAN });
    const at = `/plans/${made.body.id}/versions/1`;
    const line = "tool | Head torch | 1 piece | person | | common practice";
    const save = (kit: string, version: number) =>
      manager.post(`${at}/kit`).type("form").send({ kit, version });
    expect((await save("tool | X", 1)).text).toContain("line 1: ");
    expect((await save(line, 1)).status).toBe(303);
    expect((await save(line, 1)).status).toBe(422);
    const rename = { action: "rename-stage", stageId: "isolation", title: "Isolate", version: 2 };
    expect((await manager.post(`${at}/edits`).type("form").send(rename)).status).toBe(303);
    expect((await manager.get(`${at}/kit`)).text).toContain(`${line}</textarea>`);
    expect((await manager.get(at)).text).toContain(`href="${at}/kit"`);
    await manager.post(`${at}/publication`).type("form").send({ version: 3 });
    const frozen = await manager.get(`${at}/kit`);
    expect(frozen.text).toContain(`<pre class="told">${line}</pre>`);
    expect((await save(line, 3)).status).toBe(422);
    const office = service.as(service.firm.people.office);
    expect((await office.post(`${at}/kit`).type("form").send({ version: 3 })).status).toBe(403);
  });
});
