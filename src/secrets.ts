import { randomBytes } from "node:crypto";
import { existsSync, linkSync, mkdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { z } from "zod";

const SECRETS = z.object({
  superuserPassword: z.string(),
  ownerPassword: z.string(),
  appPassword: z.string(),
  jwtSecret: z.string(),
});

export type Secrets = z.infer<typeof SECRETS>;

/**
 * The keys that this installation made for itself at its first start, kept for its owner's eyes
 * only.
 */
export function readSecrets(dataFolder: string): Secrets {
  const file = join(dataFolder, "secrets.json");
  if (existsSync(file)) return SECRETS.parse(JSON.parse(readFileSync(file, "utf8")));
  const fresh: Secrets = {
    superuserPassword: randomSecret(),
    ownerPassword: randomSecret(),
    appPassword: randomSecret(),
    jwtSecret: randomSecret(),
  };
  mkdirSync(dataFolder, { recursive: true });
  // Written whole or not at all: half a file of keys would lock the database away. By a link, so
  // that of two instances that start on one folder for the first time both keep the same.
  const own = `${file}.${process.pid}.new`;
  writeFileSync(own, JSON.stringify(fresh, null, 2), { mode: 0o600, flush: true });
  try {
    linkSync(own, file);
  } catch (error) {
    if ((error as { code?: unknown }).code !== "EEXIST") throw error;
  } finally {
    rmSync(own, { force: true });
  }
  return SECRETS.parse(JSON.parse(readFileSync(file, "utf8")));
}

const randomSecret = (): string => randomBytes(32).toString("base64url");
