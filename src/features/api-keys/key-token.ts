import { createHash, randomBytes, timingSafeEqual } from "node:crypto";

/** What a program sends: which firm's which key, and its secret. */
export interface KeyToken {
  firmId: string;
  keyId: string;
  secret: string;
}

const FORM = /^hp_([0-9a-f]{32})_([0-9a-f]{32})_([\w-]{43})$/;

export const newSecret = (): string => randomBytes(32).toString("base64url");
export const secretHash = (secret: string): string =>
  createHash("sha256").update(secret).digest("hex");

export const tokenText = ({ firmId, keyId, secret }: KeyToken): string =>
  `hp_${firmId.replaceAll("-", "")}_${keyId.replaceAll("-", "")}_${secret}`;

/** Undefined for anything that is no key, so that it may be looked at as something else. */
export function readToken(text: string): KeyToken | undefined {
  const [, firm, key, secret] = FORM.exec(text) ?? [];
  if (firm === undefined || key === undefined || secret === undefined) return undefined;
  return { firmId: dashed(firm), keyId: dashed(key), secret };
}

const dashed = (hex: string): string =>
  hex.replace(/^(.{8})(.{4})(.{4})(.{4})(.{12})$/, "$1-$2-$3-$4-$5");

export const sameHash = (one: string, other: string): boolean =>
  one.length === other.length && timingSafeEqual(Buffer.from(one), Buffer.from(other));
