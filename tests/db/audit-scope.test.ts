// An auditor held to part of the firm reads within it in the database itself: each table is read
// without any condition, as a query would that forgets the scope. Tables are read from the
// catalogue, so that a new one is among them by itself.
import pg from "pg";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { withinAudit } from "../../src/db/audit-scope.ts";
import { inFirm, inFirmPipelined } from "../../src/db/scope.ts";
import type { NewAccess } from "../../src/features/audit-access/schemas.ts";
import { type Inside, insideOf } from "../support/audit-inside.ts";
import { type AuditStage, auditStage } from "../support/audit-stage.ts";

/** The firm's own: they belong to no site, job, unit or customer. */
const THE_FIRMS = [
  ...["absence", "api_key", "branding", "calendar_address", "calibration", "consumable", "crew"],
  ...["crew_member", "csv_import_column", "evidence_key"],
  ...["firmware_release", "firmware_ring", "firmware_target", "idempotency_key", "instrument"],
  ...["instrument_event", "invitation", "ledger_checkpoint", "mail_settings", "person", "plan"],
  ...["plan_version", "product_model", "qualification", "qualification_kind", "session"],
  ...["qualification_requirement", "reference_counter", "retention_period", "rule_pack"],
  ...["rule_pack_version", "tablet_device", "warranty_terms", "webhook_endpoint", "work_week"],
];
const OWN: Readonly<Record<string, keyof Inside>> = {
  ...{ site: "site_id", job: "job_id", unit: "unit_id", customer: "customer_id" },
  visit: "visit_id",
};
const COLUMNS = ["site_id", "job_id", "origin_job_id", "unit_id", "customer_id", "visit_id"];

let stage: AuditStage;
let client: pg.Client;
let scopes: Record<string, NewAccess["scope"]>;
beforeAll(async () => {
  stage = await auditStage();
  client = new pg.Client({ connectionString: stage.demo.appUrl });
  await client.connect();
  scopes = await someScopes();
}, 120_000);
afterAll(async () => {
  await client.end();
  await stage.end();
});

async function someScopes(): Promise<Record<string, NewAccess["scope"]>> {
  const closed = await stage.rows(
    `SELECT j.site_id, u.model_id, c.closed_at::date::text AS day FROM job j
     JOIN close_out c ON c.id = j.close_out_id JOIN job_unit k ON k.job_id = j.id
     JOIN unit u ON u.id = k.unit_id WHERE j.firm_id = $1 ORDER BY c.closed_at, u.serial`,
    [stage.demo.firmId],
  );
  const [first] = closed;
  const last = closed.at(-1);
  const siteIds = [first?.site_id ?? "", last?.site_id ?? ""];
  const modelIds = [first?.model_id ?? ""];
  const period = { from: first?.day ?? "", to: closed[Math.floor(closed.length / 2)]?.day ?? "" };
  return {
    ...{ "two sites": { siteIds }, "a model": { modelIds }, "a period": { period } },
    "a model at two sites": { siteIds, modelIds },
    "all three": { siteIds, modelIds, period },
  };
}

async function scoped(accessId: string, sql: string) {
  await client.query("BEGIN");
  try {
    await client.query(
      "SELECT set_config('app.firm_id', $1, true), set_config('app.audit_scope', $2, true)",
      [stage.demo.firmId, accessId],
    );
    return (await client.query(sql)).rows;
  } finally {
    await client.query("ROLLBACK");
  }
}

test("every table keeps an auditor in scope, or is the firm's own", async () => {
  const tables = await stage.rows(
    `SELECT c.relname AS name, EXISTS (SELECT FROM pg_policy p WHERE p.polrelid = c.oid
       AND p.polname = 'audit_scope' AND NOT p.polpermissive) OR (
       SELECT bool_and(pg_get_expr(p.polqual, c.oid) LIKE '%audit_scope()%') FROM pg_policy p
       WHERE p.polrelid = c.oid AND p.polpermissive AND p.polcmd IN ('r', '*')) AS kept
     FROM pg_class c WHERE c.relnamespace = 'public'::regnamespace AND c.relkind IN ('r', 'p')
     AND EXISTS (SELECT FROM pg_attribute a WHERE a.attrelid = c.oid AND a.attname = 'firm_id')`,
  );
  const open = tables.filter(({ kept }) => !kept).map(({ name }) => name);
  // A new table calls keep_in_audit_scope in its migration, or is named above.
  expect(open.sort()).toEqual([...THE_FIRMS].sort());
});

test("what is the firm's own belongs to no site, job, unit, customer or visit", async () => {
  const columns = await stage.rows(
    `SELECT table_name || '.' || column_name AS name FROM information_schema.columns
     WHERE table_schema = 'public' AND table_name = ANY ($1) AND column_name = ANY ($2)`,
    [THE_FIRMS, COLUMNS],
  );
  expect(columns).toEqual([]);
});

describe.each(["two sites", "a model", "a period", "a model at two sites", "all three"])(
  "within %s",
  (name) => {
    test("each table shows all that lies inside and nothing else", async () => {
      const scope = scopes[name] ?? {};
      const inside = await insideOf(stage, scope);
      const accessId = await stage.give(scope);
      const columns = await stage.rows(
        `SELECT c.table_name AS table, array_agg(c.column_name::text) AS names
         FROM information_schema.columns c WHERE c.table_schema = 'public'
         AND (c.column_name = ANY ($1) OR (c.column_name = 'id' AND c.table_name = ANY ($2)))
         GROUP BY 1`,
        [COLUMNS, Object.keys(OWN)],
      );
      const hidden: string[] = [];
      const shown: string[] = [];
      for (const { table = "", names } of columns) {
        if (["handover_link", "mail"].includes(table)) continue;
        const told = names as unknown as string[];
        const all = await stage.rows(`SELECT * FROM "${table}" WHERE firm_id = $1`, [
          stage.demo.firmId,
        ]);
        const isInside = (row: Record<string, string>) =>
          told.every((column) => {
            const of = column === "id" ? OWN[table] : column.replace("origin_", "");
            return row[column] === null || inside[of as keyof Inside].has(row[column] ?? "");
          });
        const seen = await scoped(accessId, `SELECT * FROM "${table}"`);
        const expected = all.filter(isInside);
        expect(seen.map(text).sort(), table).toEqual(expected.map(text).sort());
        if (expected.length < all.length) hidden.push(table);
        if (expected.length > 0) shown.push(table);
      }
      expect(hidden).toEqual(expect.arrayContaining(["answer", "job", "ledger_entry", "site"]));
      expect(shown).toEqual(expect.arrayContaining(["customer", "job", "site", "unit", "visit"]));
    });
  },
);

const text = (row: object): string => JSON.stringify(row);

test("changes follow what they changed, and what is over the whole firm is not shown", async () => {
  const scope = scopes["two sites"] ?? {};
  const accessId = await stage.give(scope);
  const inside = await insideOf(stage, scope);
  // The table shows nothing to whoever seeks nothing: its policy is read by itself.
  const [policy] = await stage.rows(
    `SELECT pg_get_expr(polqual, polrelid) AS kept FROM pg_policy
     WHERE polname = 'own_firm_sought' AND polrelid = 'search_entry'::regclass`,
  );
  const sought = await scoped(accessId, "SELECT kind, subject_id FROM change_record");
  for (const { kind, subject_id: id } of sought) {
    if (kind === "site" || kind === "unit") expect(inside[`${kind}_id` as "site_id"]).toContain(id);
  }
  expect(policy?.kept).toContain("audited_jobs");
  for (const table of ["notice", "mail", "due_list_record", "update_round", "csv_import_row"]) {
    expect(await scoped(accessId, `SELECT FROM ${table}`), table).toEqual([]);
  }
});

test("an access of another firm, or none that there is, shows nothing at all", async () => {
  for (const accessId of ["019ac000-0000-7000-8000-000000000000", stage.auditorId]) {
    for (const table of ["job", "site", "unit", "customer", "answer"]) {
      expect(await scoped(accessId, `SELECT FROM ${table}`), table).toEqual([]);
    }
  }
});

test("both doors to the database read within the scope of the work around them", async () => {
  const accessId = await stage.give(scopes["two sites"] ?? {});
  const { db, firmId } = stage.demo;
  const counts = () =>
    Promise.all([
      inFirm(db, firmId, (tx) => tx.site.count({ where: { firmId } })),
      inFirmPipelined(db, firmId, async (pipeline) => {
        const [found] = await pipeline.run({ text: "SELECT count(*)::int AS n FROM site" });
        return found?.rows[0].n;
      }),
    ]);
  const all = await counts();
  expect(await withinAudit(accessId, counts)).toEqual([2, 2]);
  expect(await withinAudit(accessId, () => withinAudit(undefined, counts))).toEqual(all);
  expect(all[0]).toBeGreaterThan(2);
});

test("what was given stays as it was written; it is withdrawn once", async () => {
  await stage.give(scopes["two sites"] ?? {});
  await client.query("BEGIN");
  await client.query("SELECT set_config('app.firm_id', $1, true)", [stage.demo.firmId]);
  await expect(client.query("UPDATE audit_access SET until_on = NULL")).rejects.toThrow(
    "permission denied",
  );
  await client.query("ROLLBACK");
  for (const sql of [
    "UPDATE audit_access SET site_ids = '{}' WHERE withdrawn_at IS NULL",
    "UPDATE audit_access SET withdrawn_at = now() WHERE withdrawn_at IS NOT NULL",
    "DELETE FROM audit_access",
  ]) {
    await expect(stage.rows(sql), sql).rejects.toThrow("kept as they were written");
  }
});
