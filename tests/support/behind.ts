import pg from "pg";

/** What a superuser does behind the scenes, on a connection of its own. */
export async function rowsOf(ownerUrl: string, sql: string, values: unknown[] = []) {
  const client = new pg.Client({ connectionString: ownerUrl });
  await client.connect();
  try {
    return values.length > 0 ? (await client.query(sql, values)).rows : await client.query(sql);
  } finally {
    await client.end();
  }
}
