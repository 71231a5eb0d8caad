// Firms are kept apart by the database itself: everything here runs as the application's own role
// and goes round the code.
import pg from "pg";
import { uuidv7 } from "uuidv7";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { inFirm } from "../../src/db/scope.ts";
import { startService, type TestFirm, type TestService } from "../support/app.ts";
import { addPracticeJob } from "../support/practice-job.ts";

let service: TestService;
let other: TestFirm;
let client: pg.Client;
let tables: string[];

beforeAll(async () => {
  service = await startService();
  other = await service.addFirm("birch");
  const job = await addPracticeJob(service);
  await service
    .as(service.firm.people.installer)
    .post(`/api/v1/jobs/${job.jobId}/answers`)
    .send({ answers: job.answers() });
  client = new pg.Client({ connectionString: service.appUrl });
  await client.connect();
  const { rows } = await client.query(
    "SELECT table_name FROM information_schema.columns WHERE table_schema = 'public' AND column_name = 'firm_id' ORDER BY 1",
  );
  tables = rows.map((row) => row.table_name);
});
afterAll(async () => {
  await client.end();
  await service.stop();
});

const inScope = async (firmId: string | undefined, sql: string) => {
  await client.query("BEGIN");
  try {
    if (firmId) await client.query("SELECT set_config('app.firm_id', $1, true)", [firmId]);
    return await client.query(sql);
  } finally {
    await client.query("ROLLBACK");
  }
};

describe("row-level security", () => {
  test("is on and forced for every table but those that belong to no firm", async () => {
    const { rows } = await client.query(
      `SELECT relname FROM pg_class WHERE relnamespace = 'public'::regnamespace AND relkind IN ('r', 'p')
       AND NOT (relrowsecurity AND relforcerowsecurity) ORDER BY 1`,
    );
    expect(rows.map((row) => row.relname)).toEqual(["_prisma_migrations", "sign_in_throttle"]);
    expect(tables.length).toBeGreaterThan(30);
  });

  test("shows another firm, or no firm at all, none of the rows that are there", async () => {
    const filled: string[] = [];
    for (const table of tables) {
      const own = await inScope(service.firm.firmId, `SELECT firm_id FROM ${table}`);
      expect(
        own.rows.every((row) => row.firm_id === service.firm.firmId),
        table,
      ).toBe(true);
      if (own.rowCount) filled.push(table);
      const theirs = await inScope(
        other.firmId,
        `SELECT FROM ${table} WHERE firm_id = '${service.firm.firmId}'`,
      );
      expect(theirs.rowCount, table).toBe(0);
      expect((await inScope(undefined, `SELECT FROM ${table}`)).rowCount, table).toBe(0);
    }
    expect(filled).toEqual(
      expect.arrayContaining(["answer", "customer", "job", "ledger_entry", "person", "unit"]),
    );
  });

  test("refuses a row written into another firm", async () => {
    const insert = `INSERT INTO customer (firm_id, id, reference, name, updated_at)
      VALUES ('${service.firm.firmId}', '${uuidv7()}', 'C-X', 'Smuggled', now())`;
    await expect(inScope(other.firmId, insert)).rejects.toThrow("row-level security");
  });

  test("holds for a key that points across: a site cannot belong to another firm's customer", async () => {
    const { rows } = await inScope(service.firm.firmId, "SELECT id FROM customer LIMIT 1");
    const create = inFirm(service.db, other.firmId, (tx) =>
      tx.site.create({
        data: {
          firmId: other.firmId,
          id: uuidv7(),
          reference: "S-X",
          customerId: rows[0].id,
          addressLine: "1",
          locality: "T",
          postcode: "T",
          country: "GB",
          latitude: 0,
          longitude: 0,
          timeZone: "UTC",
          supply: "TT",
          region: "uk",
        },
      }),
    );
    await expect(create).rejects.toThrow();
  });

  test("opens to signing in only the one person asked for", async () => {
    await client.query("BEGIN");
    await client.query("SELECT set_config('app.sign_in_email', 'office@birch.example', true)");
    const { rows } = await client.query("SELECT email FROM person");
    await client.query("ROLLBACK");
    expect(rows).toEqual([{ email: "office@birch.example" }]);
  });
});

describe("the application's role", () => {
  test("owns nothing, is no superuser and does not pass row-level security", async () => {
    const { rows: owned } = await client.query(
      "SELECT tablename FROM pg_tables WHERE tableowner = current_user",
    );
    expect(owned).toEqual([]);
    const { rows } = await client.query(
      "SELECT rolsuper, rolbypassrls, rolcreaterole, rolcreatedb FROM pg_roles WHERE rolname = current_user",
    );
    expect(rows).toEqual([
      { rolsuper: false, rolbypassrls: false, rolcreaterole: false, rolcreatedb: false },
    ]);
  });

  test("cannot switch row-level security off or change a table", async () => {
    await expect(client.query("ALTER TABLE job DISABLE ROW LEVEL SECURITY")).rejects.toThrow(
      "must be owner",
    );
    await expect(client.query("DROP TRIGGER job_closes_only_proven ON job")).rejects.toThrow(
      "must be owner",
    );
  });
});

describe("transactions of two firms at the same time", () => {
  test("each keep their own firm to their end", async () => {
    const seen: boolean[] = [];
    const firms = [service.firm.firmId, other.firmId];
    await Promise.all(
      Array.from({ length: 12 }, (_, turn) =>
        inFirm(service.db, firms[turn % 2]!, async (tx) => {
          for (let look = 0; look < 5; look += 1) {
            const people = await tx.person.findMany({ where: { firmId: tx.firmId } });
            seen.push(tx.firmId === firms[turn % 2] && people.length > 0);
          }
        }),
      ),
    );
    expect(seen.filter((own) => own)).toHaveLength(60);
  });
});
