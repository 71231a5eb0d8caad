// What a browser or program keeps to renew its session: firm, session and a secret, of which the
// database has a hash.
import { createHash, randomBytes } from "node:crypto";
import { REFRESH_LIFE_S, SESSION_LIFE_S } from "../../web/session.ts";

export function partsOf(refreshToken: string) {
  const [firmId, id, secret] = refreshToken.split(".");
  return isId(firmId) && isId(id) && secret ? { firmId, id, secret } : undefined;
}

const isId = (text: string | undefined): text is string =>
  /^[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$/.test(text ?? "");

export const newSecret = (): string => randomBytes(32).toString("base64url");
export const hashOf = (secret: string): string => createHash("sha256").update(secret).digest("hex");

/** Some days after the last use, and at some time in any case. */
export const refreshExpiry = (openedAt = new Date()): Date => {
  const last = openedAt.getTime() + SESSION_LIFE_S * 1000;
  return new Date(Math.min(Date.now() + REFRESH_LIFE_S * 1000, last));
};
