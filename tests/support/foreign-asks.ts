// Requests that name what belongs to another firm, and the same with ids that nobody has.
import { randomUUID } from "node:crypto";
import fc from "fast-check";
import pg from "pg";
import type { Api, Operation } from "./api-operations.ts";
import { filled, guidsIn } from "./known-ids.ts";
import { valuesOf } from "./schema-values.ts";

const SEED = 20261126;

export interface Asking {
  api: Api;
  /** The other firm's ids, by "noun id". */
  known: ReadonlyMap<string, string[]>;
}

export interface Asked {
  url: string;
  payload?: string;
}

/** The operation asked for what is the other firm's: in its path, its query and its body. */
export function askedOf({ api, known }: Asking, operation: Operation, seed = 0): Asked | undefined {
  const [path] = filled(operation, known, 1);
  if (path === undefined) return undefined;
  const idFor = (field: string) => fc.constant(idNamed(field, known));
  const making = { shared: api.shared, idFor };
  const query: [string, string][] = operation.parameters
    .filter((one) => one.in === "query" && (one.required || one.schema.format === "uuid"))
    .map(({ name, schema }) => [name, String(sampled(valuesOf(schema, making, name), seed))]);
  const url = query.length > 0 ? `${path}?${new URLSearchParams(query)}` : path;
  if (operation.body?.type !== "application/json") return { url };
  return { url, payload: JSON.stringify(sampled(valuesOf(operation.body.schema, making), seed)) };
}

const sampled = (values: fc.Arbitrary<unknown>, seed: number): unknown =>
  fc.sample(values, { numRuns: 1, seed: SEED + seed })[0];

/** "customerId" is one of /customers; where nothing fits, any id of the other firm will do. */
function idNamed(field: string, known: Asking["known"]): string {
  const noun = field.replace(/Ids?$/, "");
  for (const [key, [id]] of known) {
    const [place = "", name] = key.split(" ");
    if (name === "id" && id && place.replaceAll("-", "").startsWith(noun.toLowerCase())) return id;
  }
  return known.get("sites id")?.[0] ?? randomUUID();
}

/** The same with ids that nobody has. */
export function guessed({ url, payload }: Asked): Asked {
  const made = new Map<string, string>();
  const swap = (text: string) =>
    guidsIn(text).reduce((all, id) => {
      if (!made.has(id)) made.set(id, randomUUID());
      return all.replaceAll(id, made.get(id) ?? id);
    }, text);
  return { url: swap(url), ...(payload ? { payload: swap(payload) } : {}) };
}

/** Ids of the firm's rows by table, read behind the scenes. */
export async function idsByTable(ownerUrl: string, firmId: string): Promise<Map<string, string[]>> {
  const client = new pg.Client({ connectionString: ownerUrl });
  await client.connect();
  const tables = await client.query(
    `SELECT table_name FROM information_schema.columns
     WHERE table_schema = 'public' AND column_name = 'id' AND table_name IN (
       SELECT table_name FROM information_schema.columns WHERE column_name = 'firm_id')`,
  );
  const ids = new Map<string, string[]>();
  for (const { table_name: table } of tables.rows) {
    const rows = `SELECT id::text FROM "${table}" WHERE firm_id = $1`;
    const found = await client.query(rows, [firmId]);
    ids.set(
      table,
      found.rows.map(({ id }) => id),
    );
  }
  await client.end();
  return ids;
}
