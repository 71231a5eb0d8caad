import pg from "pg";

// One instance at a time: two that grant at once would trip over each other's catalogue rows.
const LOCK = 72707370;

/** Lets the application's role work in the tables of the queue, which the owner made. */
export async function grantQueue(ownerUrl: string, schema: string): Promise<void> {
  const client = new pg.Client({ connectionString: ownerUrl });
  await client.connect();
  try {
    const name = client.escapeIdentifier(schema);
    await client.query(`SELECT pg_advisory_xact_lock(${LOCK});
      GRANT USAGE ON SCHEMA ${name} TO holdpoint_app;
      GRANT SELECT, INSERT, UPDATE, DELETE ON ALL TABLES IN SCHEMA ${name} TO holdpoint_app;
      GRANT USAGE ON ALL SEQUENCES IN SCHEMA ${name} TO holdpoint_app;
      GRANT EXECUTE ON ALL FUNCTIONS IN SCHEMA ${name} TO holdpoint_app`);
  } finally {
    await client.end();
  }
}
