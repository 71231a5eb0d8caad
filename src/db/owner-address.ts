import { join } from "node:path";
import type { Config } from "../config.ts";
import type { Secrets } from "../secrets.ts";
import { startCluster } from "./embedded/cluster.ts";
import { runningPort } from "./embedded/join.ts";
import { prepareEmbedded, withRole } from "./roles.ts";

export interface OwnerAddress {
  ownerUrl: string;
  close(): Promise<void>;
}

/**
 * The owner's door to the database as it is, nothing migrated: to the embedded server of a running
 * service, beside it, or to one started for this.
 */
export async function openAsOwner(config: Config, secrets: Secrets): Promise<OwnerAddress> {
  const given = config.DATABASE_OWNER_URL ?? config.DATABASE_URL;
  if (given) return { ownerUrl: given, close: async () => undefined };
  const folder = join(config.dataFolder, "database");
  const port = runningPort(folder);
  if (port !== undefined) {
    const server = `postgres://127.0.0.1:${port}`;
    const ownerUrl = withRole(server, "holdpoint", "holdpoint_owner", secrets.ownerPassword);
    return { ownerUrl, close: async () => undefined };
  }
  const cluster = await startCluster({ folder, superuserPassword: secrets.superuserPassword });
  const passwords = { owner: secrets.ownerPassword, app: secrets.appPassword };
  const { ownerUrl } = await prepareEmbedded(cluster.superuserUrl, "holdpoint", passwords);
  return { ownerUrl, close: () => cluster.stop() };
}
