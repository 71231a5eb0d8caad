// One moment of the whole database, read in one transaction while others go on writing. Row-level
// security holds for the owner too, so each firm is read in its turn; naming it in the query as
// well keeps a role that passes row-level security from reading everything once a firm.
import type { Readable } from "node:stream";
import pg from "pg";
import { to as copyTo } from "pg-copy-streams";
import { type AppliedMigration, listApplied, listTables, type TableFacts } from "./tables.ts";

export interface Snapshot {
  readonly serverVersion: string;
  readonly migrations: readonly AppliedMigration[];
  readonly tables: readonly TableFacts[];
  /** A table's rows in PostgreSQL's own text format, one a line. */
  rowsOf(table: TableFacts): AsyncGenerator<Buffer>;
  /** Files that the rows of this moment name. */
  keptFiles(): AsyncGenerator<KeptFile>;
}

export interface KeptFile {
  firmId: string;
  sha256: string;
}

export async function withSnapshot<T>(
  ownerUrl: string,
  work: (snapshot: Snapshot) => Promise<T>,
): Promise<T> {
  const client = new pg.Client({
    connectionString: ownerUrl,
    application_name: "holdpoint-backup",
    options: "-c timezone=UTC -c statement_timeout=0 -c idle_in_transaction_session_timeout=0",
  });
  await client.connect();
  try {
    await client.query("BEGIN ISOLATION LEVEL REPEATABLE READ READ ONLY");
    return await work(await openSnapshot(client));
  } finally {
    await client.end();
  }
}

async function openSnapshot(client: pg.Client): Promise<Snapshot> {
  const version = await client.query("SHOW server_version");
  const migrations = await listApplied(client);
  if (migrations.length === 0) {
    throw new Error("There is nothing to back up: the database has never been used.");
  }
  const firms = await listFirms(client);
  const tables = await listTables(client);
  // An older database may not have all of them.
  const naming = NAMING_FILES.filter((name) => tables.some((table) => table.name === name));
  return {
    serverVersion: version.rows[0].server_version,
    migrations,
    tables,
    rowsOf: (table) => rowsOf(client, table, firms),
    keptFiles: () => keptFiles(client, firms, naming),
  };
}

async function listFirms(client: pg.Client): Promise<string[]> {
  await client.query("SELECT set_config('app.purpose', 'runs', true)");
  const { rows } = await client.query<{ id: string }>("SELECT id FROM firm ORDER BY id");
  await client.query("SELECT set_config('app.purpose', '', true)");
  return rows.map(({ id }) => id);
}

const enterFirm = (client: pg.Client, firmId: string) =>
  client.query("SELECT set_config('app.firm_id', $1, true)", [firmId]);

async function* rowsOf(client: pg.Client, table: TableFacts, firms: readonly string[]) {
  if (table.firmColumn === null) {
    yield* copyOut(client, selectOf(table));
    return;
  }
  const column = client.escapeIdentifier(table.firmColumn);
  for (const firmId of firms) {
    await enterFirm(client, firmId);
    const condition = `WHERE ${column} = ${client.escapeLiteral(firmId)}`;
    yield* copyOut(client, selectOf(table, condition));
  }
}

function selectOf({ name, columns, key }: TableFacts, condition = ""): string {
  const list = (names: readonly string[]): string => names.map(pg.escapeIdentifier).join(", ");
  const order = key.length > 0 ? `ORDER BY ${list(key)}` : "";
  return `SELECT ${list(columns)} FROM ${pg.escapeIdentifier(name)} ${condition} ${order}`;
}

async function* copyOut(client: pg.Client, select: string): AsyncGenerator<Buffer> {
  yield* client.query(copyTo(`COPY (${select}) TO STDOUT`)) as Readable as AsyncIterable<Buffer>;
}

const NAMING_FILES = ["photo", "job_document"];
const FILES_A_PAGE = 1000;

async function* keptFiles(client: pg.Client, firms: readonly string[], naming: readonly string[]) {
  const parts = naming.map(
    (table) => `SELECT sha256 FROM ${table} WHERE firm_id = $1 AND sha256 > $2`,
  );
  const page = `${parts.join(" UNION ")} ORDER BY sha256 LIMIT ${FILES_A_PAGE}`;
  for (const firmId of firms) {
    await enterFirm(client, firmId);
    for (let after = ""; ; ) {
      const { rows } = await client.query<{ sha256: string }>(page, [firmId, after]);
      for (const { sha256 } of rows) yield { firmId, sha256 };
      if (rows.length < FILES_A_PAGE) break;
      after = rows.at(-1)?.sha256 ?? "";
    }
  }
}
