import { buildApp } from "../app.ts";
import { connect } from "../db/client.ts";
import { cliConfig } from "./database.ts";

/** Builds the app without a database behind it: describing the routes reads nothing. */
export async function writeOpenApi(): Promise<void> {
  const db = connect({ url: "postgres://nobody@127.0.0.1:1/none", poolSize: 4 });
  const app = await buildApp({
    db,
    config: cliConfig(),
    jwtSecret: "unused for describing the routes",
  });
  await app.ready();
  await new Promise<void>((resolve) => {
    process.stdout.write(`${JSON.stringify(app.swagger(), null, 2)}\n`, () => resolve());
  });
  await app.close();
}
