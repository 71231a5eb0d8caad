import { join } from "node:path";
import type { Config } from "../config.ts";
import type { Secrets } from "../secrets.ts";
import { connect, type Database } from "./client.ts";
import { type RunningCluster, startCluster } from "./embedded/cluster.ts";
import type { ClusterWatch } from "./embedded/keep-running.ts";
import { migrate } from "./migrate.ts";
import { followReplica, type ReplicaWatch } from "./replica.ts";
import { allowStepDown, prepareEmbedded, readRoleFacts } from "./roles.ts";
import type { SlowQuery } from "./slow-queries.ts";

export interface OpenDatabase {
  db: Database;
  /** Address of the role that owns the tables. */
  ownerUrl: string;
  /** Address of the role that the application works as. */
  url: string;
  /** Role it steps down to after connecting, where `url` names a greater one. */
  role?: string;
  embedded: boolean;
  close(): Promise<void>;
}

/** Who is told of what goes on below. */
export interface DatabaseWatch {
  cluster?: ClusterWatch;
  slowQuery?(query: SlowQuery): void;
  replica?: ReplicaWatch;
}

const slowQueries = ({ SLOW_QUERY_MS: leastMs }: Config, { slowQuery: tell }: DatabaseWatch) =>
  leastMs > 0 && tell ? { slowQueries: { leastMs, tell } } : {};

/**
 * The embedded server, or the one that DATABASE_URL names: migrated, and opened as the lesser role.
 */
export async function openDatabase(
  config: Config,
  secrets: Secrets,
  watch: DatabaseWatch = {},
): Promise<OpenDatabase> {
  return config.DATABASE_URL
    ? openGiven(config, config.DATABASE_URL, watch)
    : openEmbedded(config, secrets, watch);
}

async function openEmbedded(
  config: Config,
  secrets: Secrets,
  watch: DatabaseWatch,
): Promise<OpenDatabase> {
  const cluster = await startCluster({
    folder: join(config.dataFolder, "database"),
    superuserPassword: secrets.superuserPassword,
    ...(watch.cluster ? { watch: watch.cluster } : {}),
  });
  return closingOnFailure(cluster, async () => {
    const urls = await prepareEmbedded(cluster.superuserUrl, "holdpoint", {
      owner: secrets.ownerPassword,
      app: secrets.appPassword,
    });
    await migrate(urls.ownerUrl);
    const poolSize = config.DATABASE_POOL_SIZE;
    const db = connect({ url: urls.appUrl, poolSize, ...slowQueries(config, watch) });
    const close = async (): Promise<void> => {
      await db.close();
      await cluster.stop();
    };
    return { db, ownerUrl: urls.ownerUrl, url: urls.appUrl, embedded: true, close };
  });
}

async function closingOnFailure<T>(cluster: RunningCluster, work: () => Promise<T>): Promise<T> {
  try {
    return await work();
  } catch (error) {
    await cluster.stop();
    throw error;
  }
}

async function openGiven(config: Config, url: string, watch: DatabaseWatch): Promise<OpenDatabase> {
  const ownerUrl = config.DATABASE_OWNER_URL ?? url;
  const pooled = config.DATABASE_POOLED;
  if (pooled && !config.DATABASE_OWNER_URL) throw new Error(POOLED_NEEDS);
  await migrate(ownerUrl);
  const poolSize = config.DATABASE_POOL_SIZE;
  const facts = await readRoleFacts(url);
  const greater = facts.superuser || facts.bypassesRowSecurity || facts.ownsTables;
  if (greater && config.DATABASE_OWNER_URL) {
    throw new Error(
      "DATABASE_URL names a role that owns tables or may pass row-level security. With DATABASE_OWNER_URL " +
        "set, DATABASE_URL must be a lesser role: a member of holdpoint_app and nothing more.",
    );
  }
  if (greater) await allowStepDown(url);
  const role = greater ? { role: "holdpoint_app" } : {};
  const own = { poolSize, pooled, ...role, ...slowQueries(config, watch) };
  const db = connect({ url, ...own });
  const replicaUrl = config.DATABASE_REPLICA_URL;
  if (replicaUrl)
    db.replica = followReplica(db, connect({ url: replicaUrl, ...own }), watch.replica);
  const close = async (): Promise<void> => {
    await db.replica?.close();
    await db.close();
  };
  return { db, ownerUrl, url, embedded: false, close, ...role };
}

const POOLED_NEEDS =
  "With DATABASE_POOLED, set DATABASE_OWNER_URL to the owner's address on the server itself, " +
  "past the pooler: behind it no migration can be kept apart from another.";
