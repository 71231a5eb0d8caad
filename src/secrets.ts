import { randomBytes } from "node:crypto";
import { existsSync, mkdirSync, readFileSync, renameSync, writeFileSync } from "node:fs";
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
  // Written whole or not at all: half a file of keys would lock the database away.
  writeFileSync(`${file}.new`, JSON.stringify(fresh, null, 2), { mode: 0o600, flush: true });
  renameSync(`${file}.new`, file);
  return fresh;
}

const randomSecret = (): string => randomBytes(32).toString("base64url");
