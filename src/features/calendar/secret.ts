import { createHash, randomBytes } from "node:crypto";

/** 256 bits, so that nobody finds an address by trying (RFC 4086 8.2: 128 are plenty). */
const SECRET_BYTES = 32;
export const SECRET = /^[A-Za-z0-9_-]{43}$/;

export const newSecret = (): string => randomBytes(SECRET_BYTES).toString("base64url");

/** What is kept of a secret: enough to know it again, and nothing to ask with. */
export const hashOf = (secret: string): string =>
  createHash("sha256").update(`calendar ${secret}`).digest("hex");
