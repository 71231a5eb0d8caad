// A server of the walkthrough's own, on a database that is thrown away afterwards.
import { randomBytes } from "node:crypto";
import { chmodSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { buildApp } from "../app.ts";
import { readConfig } from "../config.ts";
import { openDatabase } from "../db/open.ts";
import { foundFirm } from "../features/firms/store.ts";
import { addPerson } from "../features/people/add-person.ts";
import { hashPassword } from "../features/session/password.ts";
import { readSecrets } from "../secrets.ts";
import type { Account } from "./cast.ts";

export async function startOwnServer(): Promise<{
  baseUrl: string;
  account: Account;
  stop(): Promise<void>;
}> {
  const folder = mkdtempSync(join(tmpdir(), "holdpoint-walkthrough-"));
  // Under root the database runs as another account, which must be able to enter.
  chmodSync(folder, 0o711);
  const config = readConfig({ DATA_DIR: folder, LOG_LEVEL: "silent", PORT: "0" }, folder);
  const secrets = readSecrets(folder);
  const database = await openDatabase(config, secrets);
  const account = {
    email: "owner@walkthrough.example",
    password: randomBytes(12).toString("base64url"),
  };
  const passwordHash = await hashPassword(account.password);
  const firm = { name: "Walkthrough", timeZone: "Europe/London", unitSystem: "metric" as const };
  await foundFirm(database.db, firm, (tx) =>
    addPerson(tx, { email: account.email, name: "Walk Owner", roles: ["owner"], passwordHash }),
  );
  const app = await buildApp({ db: database.db, config, jwtSecret: secrets.jwtSecret });
  const baseUrl = await app.listen({ port: 0, host: "127.0.0.1" });
  const stop = async (): Promise<void> => {
    await app.close();
    await database.close();
    rmSync(folder, { recursive: true, force: true });
  };
  return { baseUrl, account, stop };
}
