// Rows come back as they were written: the rules that judge new work (triggers, keys between
// tables, row-level security) step aside within one transaction, and are back before it commits.
// The keys are then proven over all rows; a fault anywhere leaves nothing behind.
import type { Writable } from "node:stream";
import { pipeline } from "node:stream/promises";
import pg from "pg";
import { from as copyFrom } from "pg-copy-streams";
import { listTables, type TableFacts } from "./tables.ts";

/** A trigger that fills what the backup leaves out goes on working. */
const FILLING = ["keep_search_entry"];

interface Rules {
  aside: string[];
  back: string[];
}

/** Everything that is loaded is there after `finish`; without it, nothing is. */
export class TableLoader {
  readonly #client: pg.Client;
  #rules: Rules = { aside: [], back: [] };

  private constructor(client: pg.Client) {
    this.#client = client;
  }

  static async open(ownerUrl: string): Promise<TableLoader> {
    const client = new pg.Client({
      connectionString: ownerUrl,
      application_name: "holdpoint-restore",
      options: "-c timezone=UTC -c statement_timeout=0 -c idle_in_transaction_session_timeout=0",
    });
    await client.connect();
    const loader = new TableLoader(client);
    await client.query("BEGIN");
    loader.#rules = await readRules(client);
    for (const statement of loader.#rules.aside) await client.query(statement);
    return loader;
  }

  /** Takes whole rows in PostgreSQL's text format; returns how many it stored. */
  async load(table: TableFacts, rows: AsyncIterable<Buffer>): Promise<number> {
    const columns = table.columns.map(pg.escapeIdentifier).join(", ");
    const name = pg.escapeIdentifier(table.name);
    const into = this.#client.query(copyFrom(`COPY ${name} (${columns}) FROM STDIN`));
    await pipeline(rows, into as Writable);
    return into.rowCount;
  }

  async finish(): Promise<void> {
    for (const statement of this.#rules.back) await this.#client.query(statement);
    await this.#client.query("COMMIT");
    await this.#client.query("ANALYZE");
  }

  async close(): Promise<void> {
    await this.#client.end();
  }
}

async function readRules(client: pg.Client): Promise<Rules> {
  const names = (await listTables(client)).map(({ name }) => pg.escapeIdentifier(name));
  const parts = [await readForced(client), await readTriggers(client), await readKeys(client)];
  return {
    aside: [
      ...parts.flatMap(({ aside }) => aside),
      // Rows that a migration put there are in the backup too.
      `TRUNCATE ${names.join(", ")}`,
    ],
    back: parts.reverse().flatMap(({ back }) => back),
  };
}

const rulesOf = (rows: { aside: string; back: string }[]): Rules => ({
  aside: rows.map(({ aside }) => aside),
  back: rows.map(({ back }) => back),
});

async function readForced(client: pg.Client): Promise<Rules> {
  const { rows } = await client.query(
    `SELECT format('ALTER TABLE %I NO FORCE ROW LEVEL SECURITY', relname) AS aside,
       format('ALTER TABLE %I FORCE ROW LEVEL SECURITY', relname) AS back
     FROM pg_class WHERE relnamespace = 'public'::regnamespace AND relforcerowsecurity`,
  );
  return rulesOf(rows);
}

async function readTriggers(client: pg.Client): Promise<Rules> {
  const { rows } = await client.query(
    `SELECT format('ALTER TABLE %I DISABLE TRIGGER %I', c.relname, t.tgname) AS aside,
       format('ALTER TABLE %I ENABLE %s TRIGGER %I', c.relname,
         CASE t.tgenabled WHEN 'A' THEN 'ALWAYS' WHEN 'R' THEN 'REPLICA' ELSE '' END,
         t.tgname) AS back
     FROM pg_trigger t JOIN pg_class c ON c.oid = t.tgrelid
     WHERE c.relnamespace = 'public'::regnamespace AND NOT t.tgisinternal AND t.tgenabled <> 'D'
       AND t.tgname <> ALL ($1)`,
    [FILLING],
  );
  return rulesOf(rows);
}

async function readKeys(client: pg.Client): Promise<Rules> {
  const { rows } = await client.query(
    `SELECT format('ALTER TABLE %I DROP CONSTRAINT %I', c.relname, k.conname) AS aside,
       format('ALTER TABLE %I ADD CONSTRAINT %I %s', c.relname, k.conname,
         pg_get_constraintdef(k.oid)) AS back
     FROM pg_constraint k JOIN pg_class c ON c.oid = k.conrelid
     WHERE k.connamespace = 'public'::regnamespace AND k.contype = 'f' AND k.conparentid = 0
     ORDER BY k.conname`,
  );
  return rulesOf(rows);
}
