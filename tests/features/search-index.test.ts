import fc from "fast-check";
import pg from "pg";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { foldText } from "../../src/domain/search/fold.ts";
import { startService, type TestService } from "../support/app.ts";
import { addModel, receive } from "../support/stock.ts";

let service: TestService;
beforeAll(async () => {
  service = await startService();
  const office = service.as(service.firm.people.office);
  await office.post("/api/v1/customers").send({ name: "Hanne Osei" });
  const other = await service.addFirm("birch");
  await service.as(other.people.office).post("/api/v1/customers").send({ name: "Hanne Osei" });
  const { id: modelId } = await addModel(service, { serialMask: "FSA@@#{6}" });
  for (const serial of ["FSAQK204417", "FSAQK204418"]) await receive(service, modelId, { serial });
});
afterAll(() => service.stop());

describe("under row-level security, as the application's role,", () => {
  let client: pg.Client;
  beforeAll(async () => {
    // Enough rows for the index to be worth its while; a handful is read whole, whatever there is.
    const owner = new pg.Client({ connectionString: service.ownerUrl });
    await owner.connect();
    await owner.query(
      `INSERT INTO customer (firm_id, id, reference, name, updated_at)
       SELECT $1, gen_random_uuid(), 'C-many-' || n, md5(n::text), now()
       FROM generate_series(1, 5000) n`,
      [service.firm.firmId],
    );
    await owner.query(
      `INSERT INTO unit (firm_id, id, model_id, serial, state, updated_at)
       SELECT firm_id, gen_random_uuid(), model_id, 'MANY' || n, state, now()
       FROM generate_series(1, 5000) n, (SELECT * FROM unit WHERE serial = 'FSAQK204417') one`,
    );
    await owner.query("VACUUM ANALYZE search_entry, unit");
    await owner.end();
    client = new pg.Client({ connectionString: service.appUrl });
    await client.connect();
  });
  afterAll(() => client.end());

  const inScope = async (firmId: string, sought: string, sql: string, values: unknown[] = []) => {
    await client.query("BEGIN");
    await client.query(
      `SELECT set_config('app.firm_id', $1, true), set_config('app.search', $2, true),
        set_config('enable_seqscan', 'off', true)`,
      [firmId, sought],
    );
    const { rows } = await client.query(sql, values);
    await client.query("ROLLBACK");
    return rows;
  };

  test("words are sought through the index, the firm beside the trigrams", async () => {
    const rows = await inScope(
      service.firm.firmId,
      "lantern row",
      "EXPLAIN SELECT subject_id FROM search_entry",
    );
    const plan = rows.map((row) => row["QUERY PLAN"]).join("\n");
    expect(plan).toContain("Index Scan on search_entry_firm_id_words_idx");
    expect(plan).toMatch(/Index Cond: \(\(firm_id = .*words %> .*words %> /);
  });

  test.each([
    "unit u WHERE u.serial ~>=~ 'FSAQ' AND u.serial ~<~ 'FSAR'",
    "unnest('{FSAQK204417,FSAQK204418}'::text[]) one (serial) JOIN unit u USING (serial)",
  ])("serial numbers are sought through the index: %s", async (from) => {
    const plan = (await inScope(service.firm.firmId, "", `EXPLAIN SELECT u.id FROM ${from}`))
      .map((row) => row["QUERY PLAN"])
      .join("\n");
    expect(plan).toMatch(/unit_serial_begins[\s\S]*Index Cond: \(\(firm_id = .*serial/);
  });

  test("another firm's words, or words of nobody's seeking, are not to be had", async () => {
    const all = "SELECT firm_id FROM search_entry";
    const own = await inScope(service.firm.firmId, "osei", all);
    expect(own.length).toBeGreaterThan(0);
    expect(new Set(own.map((row) => row.firm_id))).toEqual(new Set([service.firm.firmId]));
    expect(await inScope(service.firm.firmId, "", all)).toEqual([]);
  });

  test("the database folds what it keeps as the domain folds what is typed", async () => {
    const sign = fc.oneof(
      fc.constantFrom(..."aáÄßøÆœþđłı'’ -.,09Zéñçž"),
      fc.integer({ min: 0x20, max: 0x24f }).map((code) => String.fromCodePoint(code)),
    );
    const texts = fc
      .sample(fc.array(sign, { maxLength: 14 }), { numRuns: 800, seed: 2026 })
      .map((signs) => signs.join(""))
      .filter((text) => /^[\p{Script=Latin}\x20-\x7e’]*$/u.test(text));
    const rows = await inScope(
      service.firm.firmId,
      "",
      "SELECT fold_text(t) AS folded FROM unnest($1::text[]) WITH ORDINALITY u(t, n) ORDER BY n",
      [texts],
    );
    expect(texts.length).toBeGreaterThan(100);
    expect(rows.map((row) => row.folded)).toEqual(texts.map(foldText));
  });
});
