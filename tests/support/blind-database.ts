// The code's own scoping switched off: wherever it asks for rows of its firm, it asks for those of
// another one. What then still keeps firms apart is row-level security alone.
import type pg from "pg";
import type { Database } from "../../src/db/client.ts";

export interface BlindDatabase extends Database {
  /** From now on `own` is read as `other` in every condition; undefined puts an end to it. */
  mistake(own: string | undefined, other?: string): void;
}

interface RawQuery {
  strings?: readonly string[];
  values?: unknown[];
}

export function blindDatabase(db: Database): BlindDatabase {
  let own: string | undefined;
  let other = "";
  const mistaken = <Value>(value: Value): Value => {
    if (own === undefined) return value;
    if (typeof value === "string") return (value === own ? other : value) as Value;
    if (Array.isArray(value)) return value.map(mistaken) as Value;
    if (value === null || typeof value !== "object" || value.constructor !== Object) return value;
    const entries = Object.entries(value).map(([key, one]) => [key, mistaken(one)]);
    return Object.fromEntries(entries) as Value;
  };
  const prisma = db.prisma.$extends({
    query: {
      $allOperations({ model, args, query }) {
        if (model === undefined) return query(mistakenRaw(args as RawQuery, mistaken));
        const { where, ...rest } = args as { where?: unknown };
        return query(where === undefined ? args : { ...rest, where: mistaken(where) });
      },
    },
  });
  const pool = new Proxy(db.pool, {
    get: (target, key) => {
      if (key === "connect") {
        return async () => mistakenClient(await target.connect(), mistaken);
      }
      const found = Reflect.get(target, key);
      return typeof found === "function" ? found.bind(target) : found;
    },
  });
  return {
    ...{ pool, prisma: prisma as unknown as Database["prisma"] },
    ...{ pools: db.pools, keepsPrepared: db.keepsPrepared, close: db.close },
    mistake: (from, to = "") => {
      own = from;
      other = to;
    },
  };
}

type Mistaken = <Value>(value: Value) => Value;

/** What sets the scope stays as it is. */
const SETS_SCOPE = /set_config|read_as_auditor/;

function mistakenRaw(args: RawQuery, mistaken: Mistaken): RawQuery {
  if (Array.isArray(args)) {
    const [text, ...values] = args;
    return [text, ...(SETS_SCOPE.test(String(text)) ? values : mistaken(values))] as never;
  }
  if (!args.values || SETS_SCOPE.test(args.strings?.join("") ?? "")) return args;
  const values = mistaken(args.values);
  return Object.assign(Object.create(Object.getPrototypeOf(args)), args, { values });
}

function mistakenClient(client: pg.PoolClient, mistaken: Mistaken): pg.PoolClient {
  return new Proxy(client, {
    get: (target, key) => {
      const found = Reflect.get(target, key);
      if (typeof found !== "function") return found;
      if (key !== "query") return found.bind(target);
      return (statement: { text: string; values?: unknown[] }, ...rest: unknown[]) => {
        const isScope = typeof statement !== "object" || SETS_SCOPE.test(statement.text);
        const asked = isScope ? statement : { ...statement, values: mistaken(statement.values) };
        return Reflect.apply(found, target, [asked, ...rest]);
      };
    },
  });
}
