import pg from "pg";

/** Tables of the database that hold one of the words, in whatever column, bytes as hex too. */
export async function tablesWith(ownerUrl: string, plain: readonly string[]): Promise<string[]> {
  const words = [...plain, ...plain.map((word) => Buffer.from(word).toString("hex"))];
  const client = new pg.Client({ connectionString: ownerUrl });
  await client.connect();
  try {
    const { rows } = await client.query<{ name: string }>(
      `SELECT relname AS name FROM pg_class
        WHERE relkind = 'r' AND relnamespace = 'public'::regnamespace`,
    );
    const found: string[] = [];
    for (const { name } of rows) {
      const { rowCount } = await client.query(
        `SELECT FROM "${name}" t WHERE EXISTS (
          SELECT FROM unnest($1::text[]) w WHERE strpos(lower(t::text), lower(w)) > 0) LIMIT 1`,
        [words],
      );
      if (rowCount) found.push(name);
    }
    return found.sort();
  } finally {
    await client.end();
  }
}
