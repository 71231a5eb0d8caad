// What the operator sees of the database: sizes and sums over all firms, nobody's own words.
import type { Database } from "../../db/client.ts";

const TABLES_SHOWN = 10;

export interface DatabaseFigures {
  version: string;
  bytes: number;
  tables: { name: string; bytes: number }[];
}

export async function readDatabaseFigures({ pool }: Database): Promise<DatabaseFigures> {
  const { rows } = await pool.query<{ version: string; bytes: number }>(
    `SELECT current_setting('server_version') AS version,
       pg_database_size(current_database())::float8 AS bytes`,
  );
  const { rows: tables } = await pool.query<{ name: string; bytes: number }>(
    `SELECT relname AS name, pg_total_relation_size(oid)::float8 AS bytes
     FROM pg_class WHERE relkind = 'r' AND relnamespace = 'public'::regnamespace
     ORDER BY 2 DESC, 1 LIMIT $1`,
    [TABLES_SHOWN],
  );
  return { version: rows[0]?.version ?? "", bytes: rows[0]?.bytes ?? 0, tables };
}
