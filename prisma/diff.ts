// The SQL that leads from one state of the schema to another, without the engine that the Prisma
// CLI would download: `npm run schema:diff` prints what a new migration must hold.
import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { PrismaPg } from "@prisma/adapter-pg";
import {
  bindMigrationAwareSqlAdapterFactory,
  ColumnTypeEnum,
  type SqlDriverAdapter,
} from "@prisma/driver-adapter-utils";
import { SchemaEngine } from "@prisma/schema-engine-wasm";
import pg from "pg";

const SCHEMA_PATH = fileURLToPath(new URL("schema.prisma", import.meta.url));

/**
 * SQL from the database at `url` (its own schema, or an empty one) to schema.prisma; "" when equal.
 */
export async function diffFromDatabase(url: string, from: "database" | "empty"): Promise<string> {
  const pool = new pg.Pool({ connectionString: url, max: 1 });
  const files = [{ path: SCHEMA_PATH, content: readFileSync(SCHEMA_PATH, "utf8") }];
  const factory = bindMigrationAwareSqlAdapterFactory(catalogueReader(pool));
  const engine = await SchemaEngine.new({ datamodels: undefined }, () => undefined, factory);
  try {
    const result = await engine.diff({
      from: from === "empty" ? { tag: "empty" } : { tag: "schemaDatasource", files, configDir: "" },
      to: { tag: "schemaDatamodel", files },
      script: true,
      exitCode: null,
      filters: { externalTables: ["public._prisma_migrations"], externalEnums: [] },
    });
    const sql = result.stdout ?? "";
    return /^\s*(--[^\n]*)?\s*$/.test(sql) ? "" : sql;
  } finally {
    engine.free();
    await pool.end();
  }
}

const CATALOGUE_CHAR = 18;
const TEXT = 25;

/**
 * The adapter refuses the one-letter type of PostgreSQL's own catalogue, and the engine insists on
 * it as a character: it is let through as text and given its type back afterwards.
 */
function catalogueReader(pool: pg.Pool): PrismaPg {
  let letters: string[] = [];
  const query = pool.query.bind(pool) as (
    config: unknown,
    values?: unknown,
  ) => Promise<pg.QueryResult>;
  pool.query = (async (config: unknown, values?: unknown) => {
    const result = await query(config, values);
    const fields = (result.fields ?? []).filter((field) => field.dataTypeID === CATALOGUE_CHAR);
    for (const field of fields) field.dataTypeID = TEXT;
    letters = fields.map((field) => field.name);
    return result;
  }) as typeof pool.query;
  const factory = new PrismaPg(pool);
  const connect = factory.connect.bind(factory);
  factory.connect = async () => {
    const adapter: SqlDriverAdapter = await connect();
    const queryRaw = adapter.queryRaw.bind(adapter);
    adapter.queryRaw = async (sql) => {
      const result = await queryRaw(sql);
      for (const name of letters) {
        result.columnTypes[result.columnNames.indexOf(name)] = ColumnTypeEnum.Character;
      }
      return result;
    };
    return adapter as Awaited<ReturnType<typeof connect>>;
  };
  return factory;
}
