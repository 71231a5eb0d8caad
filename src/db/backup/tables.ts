// What a backup holds of the database: every table of the service with the columns that are not
// computed. The queue's own schema stays out (its runs look for what there is to do), and so does
// what the database derives by itself.
import pg from "pg";

export interface TableFacts {
  name: string;
  columns: string[];
  /** Column that names the firm; null where the rows are nobody's. */
  firmColumn: string | null;
  key: string[];
}

/** Filled by triggers of other tables, so they come back by themselves. */
const DERIVED = ["search_entry"];
const MIGRATIONS = "_prisma_migrations";

const TABLES = `
  SELECT c.relname AS name,
    ARRAY(SELECT a.attname::text FROM pg_attribute a
      WHERE a.attrelid = c.oid AND a.attnum > 0 AND NOT a.attisdropped AND a.attgenerated = ''
      ORDER BY a.attnum) AS columns,
    ARRAY(SELECT a.attname::text FROM pg_index i,
        unnest(i.indkey) WITH ORDINALITY AS k (attnum, place)
      JOIN pg_attribute a ON a.attnum = k.attnum
      WHERE i.indrelid = c.oid AND i.indisprimary AND a.attrelid = c.oid ORDER BY k.place) AS key
  FROM pg_class c
  WHERE c.relnamespace = 'public'::regnamespace AND c.relkind IN ('r', 'p') AND NOT c.relispartition
    AND c.relname <> ALL ($1)
  ORDER BY c.relname`;

export async function listTables(client: pg.Client): Promise<TableFacts[]> {
  const { rows } = await client.query<Omit<TableFacts, "firmColumn">>(TABLES, [
    [...DERIVED, MIGRATIONS],
  ]);
  return rows.map((row) => ({ ...row, firmColumn: firmColumnOf(row) }));
}

function firmColumnOf({ name, columns }: Omit<TableFacts, "firmColumn">): string | null {
  if (name === "firm") return "id";
  return columns.includes("firm_id") ? "firm_id" : null;
}

export interface AppliedMigration {
  name: string;
  checksum: string;
}

/** In the order in which they were applied; none where the database is empty. */
export async function listApplied(client: pg.Client): Promise<AppliedMigration[]> {
  const there = await client.query("SELECT to_regclass($1) AS table", [`public.${MIGRATIONS}`]);
  if (there.rows[0].table === null) return [];
  const { rows } = await client.query<AppliedMigration>(
    `SELECT migration_name AS name, checksum FROM ${MIGRATIONS}
     WHERE finished_at IS NOT NULL AND rolled_back_at IS NULL ORDER BY migration_name`,
  );
  return rows;
}

/** Whether the database at this address keeps nothing at all. */
export async function isEmptyDatabase(ownerUrl: string): Promise<boolean> {
  const client = new pg.Client({ connectionString: ownerUrl });
  await client.connect();
  try {
    const { rowCount } = await client.query(
      "SELECT FROM pg_tables WHERE schemaname NOT IN ('pg_catalog', 'information_schema') LIMIT 1",
    );
    return rowCount === 0;
  } finally {
    await client.end();
  }
}
