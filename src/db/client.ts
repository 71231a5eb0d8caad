import { PrismaPg } from "@prisma/adapter-pg";
import pg from "pg";
import { PrismaClient } from "./generated/client.ts";
import { type SlowQuery, watchQueries } from "./slow-queries.ts";

/**
 * Both doors to the one database: Prisma for ordinary work, pg for the paths that must be quick.
 */
export interface Database {
  prisma: PrismaClient;
  pool: pg.Pool;
  /** Both of them, to look at how busy they are. */
  pools: Readonly<Record<string, pg.Pool>>;
  /** Whether a connection keeps what was prepared on it: behind a pooler none does. */
  keepsPrepared: boolean;
  /** A server that follows this one and may be asked for lists; see `forReading` of scope.ts. */
  replica?: Replica;
  close(): Promise<void>;
}

/** A server that follows the first, to be asked for lists. */
export interface Replica {
  db: Database;
  /** Whether it answers, and has all that was written ten seconds ago. */
  isFit(): boolean;
  close(): Promise<void>;
}

export interface DatabaseOptions {
  url: string;
  poolSize: number;
  /** Step down to this role after connecting, when the URL's own role is a greater one. */
  role?: string;
  /** The address leads through a pooler that lends a connection for one transaction. */
  pooled?: boolean;
  slowQueries?: { leastMs: number; tell(query: SlowQuery): void };
}

export function connect(options: DatabaseOptions): Database {
  const config: pg.PoolConfig = {
    connectionString: options.url,
    application_name: "holdpoint",
    connectionTimeoutMillis: 10_000,
    ...(options.pooled ? POOLED_SETTINGS : startingSettings(options.role)),
  };
  const half = Math.ceil(options.poolSize / 2);
  // Prisma sends the parts of one query side by side, which only a pipelining connection may take.
  const prismaPool = new pg.Pool({ ...config, max: half, pipeline: true } as pg.PoolConfig);
  const pool = new pg.Pool({ ...config, max: half });
  // An idle connection may die with its server; the next query opens another.
  prismaPool.on("error", () => undefined);
  pool.on("error", () => undefined);
  // So may one at work: its queries tell of it, and without a listener the process would end.
  for (const each of [prismaPool, pool]) {
    each.on("connect", (client) => client.on("error", () => undefined));
  }
  const { slowQueries: slow } = options;
  if (slow) for (const each of [prismaPool, pool]) watchQueries(each, slow.leastMs, slow.tell);
  const prisma = new PrismaClient({
    adapter: new PrismaPg(prismaPool),
    // The longer forms write what was asked for, values and all, into the message of an error.
    errorFormat: "minimal",
  });
  return {
    prisma,
    pool,
    pools: { prisma: prismaPool, direct: pool },
    keepsPrepared: options.pooled !== true,
    close: async () => {
      await prisma.$disconnect();
      await Promise.all([prismaPool.end(), pool.end()]);
    },
  };
}

/** A pooler takes no settings at the start; this one it carries from server to server. */
const POOLED_SETTINGS: pg.PoolConfig = {
  onConnect: async (client) => {
    await client.query("SET TIME ZONE 'UTC'");
  },
};

/** Prisma takes every timestamptz for UTC, whatever zone the server would write it in. */
const startingSettings = (role: string | undefined): pg.PoolConfig => ({
  idle_in_transaction_session_timeout: 60_000,
  statement_timeout: 60_000,
  options: `-c timezone=UTC${role ? ` -c role=${role}` : ""}`,
});
