import pg from "pg";

export interface RolePasswords {
  owner: string;
  app: string;
}

/**
 * Makes the embedded server's two roles and its database: one that owns, one that only works in it.
 */
export async function prepareEmbedded(
  superuserUrl: string,
  database: string,
  passwords: RolePasswords,
): Promise<{ ownerUrl: string; appUrl: string }> {
  const client = new pg.Client({ connectionString: `${superuserUrl}/postgres` });
  await client.connect();
  try {
    await ensureRole(
      client,
      "holdpoint_owner",
      `LOGIN CREATEROLE PASSWORD ${client.escapeLiteral(passwords.owner)}`,
    );
    await ensureRole(
      client,
      "holdpoint_app",
      `LOGIN PASSWORD ${client.escapeLiteral(passwords.app)}`,
    );
    const { rowCount } = await client.query("SELECT FROM pg_database WHERE datname = $1", [
      database,
    ]);
    if (!rowCount) {
      await client.query(
        `CREATE DATABASE ${client.escapeIdentifier(database)} OWNER holdpoint_owner`,
      );
    }
  } finally {
    await client.end();
  }
  return {
    ownerUrl: withRole(superuserUrl, database, "holdpoint_owner", passwords.owner),
    appUrl: withRole(superuserUrl, database, "holdpoint_app", passwords.app),
  };
}

async function ensureRole(client: pg.Client, name: string, attributes: string): Promise<void> {
  const { rowCount } = await client.query("SELECT FROM pg_roles WHERE rolname = $1", [name]);
  await client.query(`${rowCount ? "ALTER" : "CREATE"} ROLE ${name} ${attributes}`);
}

export function withRole(
  serverUrl: string,
  database: string,
  role: string,
  password: string,
): string {
  const url = new URL(serverUrl);
  url.username = role;
  url.password = encodeURIComponent(password);
  url.pathname = `/${database}`;
  return url.toString();
}

export interface RoleFacts {
  superuser: boolean;
  bypassesRowSecurity: boolean;
  ownsTables: boolean;
}

/** What the role behind `url` may do beyond the application's needs. */
export async function readRoleFacts(url: string): Promise<RoleFacts> {
  const client = new pg.Client({ connectionString: url });
  await client.connect();
  try {
    const { rows } = await client.query(
      `SELECT rolsuper, rolbypassrls, EXISTS (
         SELECT FROM pg_tables WHERE schemaname = current_schema() AND tableowner = current_user
       ) AS owns FROM pg_roles WHERE rolname = current_user`,
    );
    return {
      superuser: rows[0].rolsuper,
      bypassesRowSecurity: rows[0].rolbypassrls,
      ownsTables: rows[0].owns,
    };
  } finally {
    await client.end();
  }
}

/** Lets the role that signed in step down to holdpoint_app. */
export async function allowStepDown(ownerUrl: string): Promise<void> {
  const client = new pg.Client({ connectionString: ownerUrl });
  await client.connect();
  try {
    const { rows } = await client.query(
      "SELECT rolsuper, current_user AS me FROM pg_roles WHERE rolname = current_user",
    );
    const member = await client
      .query("SELECT pg_has_role(current_user, 'holdpoint_app', 'SET') AS can")
      .catch(() =>
        client.query("SELECT pg_has_role(current_user, 'holdpoint_app', 'MEMBER') AS can"),
      );
    if (rows[0].rolsuper || member.rows[0].can) return;
    await client.query(`GRANT holdpoint_app TO ${client.escapeIdentifier(rows[0].me)}`);
  } finally {
    await client.end();
  }
}
