// What the browser of whoever typed the token keeps instead of it: until when, and a hash over that
// which takes the installation's secret to make. Another token ends all that were made under it.
import { createHmac } from "node:crypto";
import { isSame } from "./token.ts";

export const SEAL_LIFE_S = 30 * 60;

/** Derived from the installation's secret, so every instance takes what another one gave. */
export const operationKeyOf = (jwtSecret: string): Buffer =>
  createHmac("sha256", jwtSecret).update("operation page").digest();

export function makeSeal(key: Buffer, token: string, now: Date): string {
  const until = String(now.getTime() + SEAL_LIFE_S * 1000);
  return `${until}.${hashOver(key, token, until)}`;
}

export function sealHolds(key: Buffer, token: string, seal: string, now: Date): boolean {
  const [until = "", hash = ""] = seal.split(".", 2);
  return isSame(hash, hashOver(key, token, until)) && Number(until) > now.getTime();
}

const hashOver = (key: Buffer, token: string, until: string): string =>
  createHmac("sha256", key).update(`${until}.${token}`).digest("base64url");
