// Private keys lie in the database sealed with a secret that lies in the data folder: a copy of
// either alone signs nothing.
import { createCipheriv, createDecipheriv, hkdfSync, randomBytes } from "node:crypto";
import { existsSync, linkSync, mkdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";

const CIPHER = "aes-256-gcm";
const NONCE_BYTES = 12;
const TAG_BYTES = 16;
const SECRET_FILE = "evidence-secret";

/** @param keyId ties the sealed bytes to their row: those of another row do not open */
export function sealKey(dataFolder: string, keyId: string, privateKey: Uint8Array): Buffer {
  const nonce = randomBytes(NONCE_BYTES);
  const cipher = createCipheriv(CIPHER, sealingKey(dataFolder, keyId), nonce);
  const sealed = Buffer.concat([cipher.update(privateKey), cipher.final()]);
  return Buffer.concat([nonce, cipher.getAuthTag(), sealed]);
}

/** Undefined when the secret in the data folder is not the one that sealed it. */
export function unsealKey(
  dataFolder: string,
  keyId: string,
  bytes: Uint8Array,
): Buffer | undefined {
  const sealed = Buffer.from(bytes);
  const nonce = sealed.subarray(0, NONCE_BYTES);
  const decipher = createDecipheriv(CIPHER, sealingKey(dataFolder, keyId), nonce);
  decipher.setAuthTag(sealed.subarray(NONCE_BYTES, NONCE_BYTES + TAG_BYTES));
  const opened = decipher.update(sealed.subarray(NONCE_BYTES + TAG_BYTES));
  try {
    return Buffer.concat([opened, decipher.final()]);
  } catch {
    return undefined;
  }
}

function sealingKey(dataFolder: string, keyId: string): Buffer {
  return Buffer.from(hkdfSync("sha256", readSecret(dataFolder), keyId, "evidence key", 32));
}

function readSecret(dataFolder: string): Buffer {
  const file = join(dataFolder, SECRET_FILE);
  if (!existsSync(file)) makeSecret(dataFolder, file);
  return readFileSync(file);
}

/** Written whole under another name first, and by a link: of two that make it at once one wins. */
function makeSecret(dataFolder: string, file: string): void {
  mkdirSync(dataFolder, { recursive: true });
  const fresh = `${file}.${randomBytes(6).toString("hex")}`;
  writeFileSync(fresh, randomBytes(32), { mode: 0o600, flush: true });
  try {
    linkSync(fresh, file);
  } catch (error) {
    if ((error as { code?: unknown }).code !== "EEXIST") throw error;
  } finally {
    rmSync(fresh, { force: true });
  }
}
