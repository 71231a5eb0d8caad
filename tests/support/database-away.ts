// A database that answers nobody for a while, as when its server is down: who is in it is put out,
// and nobody is let in.
import pg from "pg";

export async function whileAway(ownerUrl: string, work: () => Promise<void>): Promise<void> {
  const url = new URL(ownerUrl);
  const name = url.pathname.slice(1);
  url.pathname = "/postgres";
  const client = new pg.Client({ connectionString: url.toString() });
  await client.connect();
  try {
    await client.query(`ALTER DATABASE ${name} ALLOW_CONNECTIONS false`);
    await client.query(
      "SELECT pg_terminate_backend(pid) FROM pg_stat_activity WHERE datname = $1",
      [name],
    );
    await work();
  } finally {
    await client.query(`ALTER DATABASE ${name} ALLOW_CONNECTIONS true`);
    await client.end();
  }
}
