// The one place that knows the library for time-based codes (RFC 6238: SHA-1, six digits, thirty
// seconds, as every authenticator reads them).
import { createHash, randomBytes } from "node:crypto";
import { Secret, TOTP } from "otpauth";

const PERIOD_S = 30;
/** A clock may be off by one step either way (RFC 6238 section 5.2). */
const WINDOW = 1;
const RECOVERY_CODES = 10;

export const newTotpSecret = (): string => new Secret({ size: 20 }).base32;

const totpOf = (secret: string, label: string): TOTP =>
  new TOTP({
    ...{ issuer: "Holdpoint", label, algorithm: "SHA1", digits: 6, period: PERIOD_S },
    secret: Secret.fromBase32(secret),
  });

/** What an authenticator reads from the picture. */
export const enrolmentUri = (secret: string, label: string): string =>
  totpOf(secret, label).toString();

/** The step that a code is of; undefined where it is of none that counts now. */
export function stepOf(secret: string, code: string, now: Date): bigint | undefined {
  const token = code.replace(/\s/g, "");
  if (!/^\d{6}$/.test(token)) return undefined;
  const delta = totpOf(secret, "").validate({ token, timestamp: now.getTime(), window: WINDOW });
  if (delta === null) return undefined;
  return BigInt(Math.floor(now.getTime() / 1000 / PERIOD_S) + delta);
}

/**
 * Ten codes in Crockford's base 32, which leaves out what is taken for another sign; of 140 bits
 * each, so that a quick hash keeps them.
 */
export const newRecoveryCodes = (): string[] =>
  Array.from({ length: RECOVERY_CODES }, () =>
    [...randomBytes(28)]
      .map((byte) => ALPHABET[byte % ALPHABET.length])
      .join("")
      .replace(/(.{4})(?=.)/g, "$1-"),
  );

/** 32 signs, so that a byte falls on each as often. */
const ALPHABET = "0123456789abcdefghjkmnpqrstvwxyz";

export const recoveryHash = (code: string): string =>
  createHash("sha256").update(code.replace(/[\s-]/g, "").toLowerCase()).digest("hex");
