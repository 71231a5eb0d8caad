// How the schema that is there stands beside the one that this program was written for.
import type pg from "pg";
import { type Migration, readMigrations } from "./migrate.ts";

export interface SchemaState {
  /** The last one that the program brings, and the last one that the database has. */
  expected: string | null;
  found: string | null;
  /** The program's own, by name, that the database lacks. */
  pending: string[];
  /** Begun and neither finished nor taken back. */
  failed: string[];
  /** Applied from another text than the program has. */
  changed: string[];
  /** Applied by a later program. */
  unknown: string[];
}

interface Row {
  name: string;
  checksum: string;
  finished: boolean;
}

let read: readonly Migration[] | undefined;

/** Read once: the files do not change under a running program. */
function ownMigrations(): readonly Migration[] {
  read = read ?? readMigrations();
  return read;
}

export async function readSchemaState(
  pool: pg.Pool,
  migrations = ownMigrations(),
): Promise<SchemaState> {
  const { rows } = await pool.query<Row>(
    `SELECT migration_name AS name, checksum, finished_at IS NOT NULL AS finished
     FROM _prisma_migrations WHERE rolled_back_at IS NULL ORDER BY migration_name`,
  );
  return compare(migrations, rows);
}

function compare(migrations: readonly Migration[], rows: readonly Row[]): SchemaState {
  const applied = new Map(rows.filter((row) => row.finished).map((row) => [row.name, row]));
  const names = new Set(migrations.map(({ name }) => name));
  const named = (list: readonly { name: string }[]): string[] => list.map(({ name }) => name);
  return {
    expected: migrations.at(-1)?.name ?? null,
    found: [...applied.keys()].at(-1) ?? null,
    pending: named(migrations.filter(({ name }) => !applied.has(name))),
    failed: named(rows.filter(({ name, finished }) => !finished && !applied.has(name))),
    changed: named(
      migrations.filter(({ name, checksum }) => {
        const row = applied.get(name);
        return row !== undefined && row.checksum !== checksum;
      }),
    ),
    unknown: [...applied.keys()].filter((name) => !names.has(name)),
  };
}
