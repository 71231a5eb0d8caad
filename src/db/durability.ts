import type { Database } from "./client.ts";

const NEEDED = ["fsync", "full_page_writes", "synchronous_commit"] as const;

/**
 * A reading said to be kept must survive a power cut, so a server that only pretends is refused.
 */
export async function requireDurable(db: Database): Promise<void> {
  for (const setting of NEEDED) {
    const { rows } = await db.pool.query("SELECT current_setting($1) AS value", [setting]);
    if (rows[0].value === "off") {
      throw new Error(
        `The database runs with ${setting} = off, so a confirmed reading could be lost. ` +
          `Set ${setting} = on in postgresql.conf and restart it.`,
      );
    }
  }
}
