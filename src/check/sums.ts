// Checksums of files in a browser. Its own digest is many times faster and wants all bytes at once:
// it gets files that may lie in memory; larger ones pass through a slower one in parts.
import { sha256, sha512 } from "@noble/hashes/sha2.js";
import { joined } from "../verify/bag-source.ts";
import type { FileSums, Summing } from "../verify/bag-sums.ts";

const WHOLE_MOST_BYTES = 32 * 1024 * 1024;
/** Of the polynomial of ZIP (APPNOTE, 4.4.7, from memory), bits reversed. */
const POLYNOMIAL = 0xedb88320;

const TABLE = Uint32Array.from({ length: 256 }, (_, index) => {
  let rest = index;
  for (let bit = 0; bit < 8; bit += 1) rest = (rest >>> 1) ^ (rest & 1 ? POLYNOMIAL : 0);
  return rest;
});

/** CRC-32 of bytes that follow on those with the CRC-32 `before`. */
export function crc32(bytes: Uint8Array, before: number): number {
  let rest = ~before;
  for (let at = 0; at < bytes.length; at += 1) {
    rest = (rest >>> 8) ^ (TABLE[(rest ^ (bytes[at] ?? 0)) & 0xff] ?? 0);
  }
  return ~rest >>> 0;
}

/** @param wholeMost bytes of the largest file that is held whole */
export const summing =
  (wholeMost = WHOLE_MOST_BYTES): Summing =>
  async (parts) => {
    const held: Uint8Array[] = [];
    const [short, long] = [sha256.create(), sha512.create()];
    let [bytes, crc] = [0, 0];
    for await (const part of parts) {
      bytes += part.length;
      crc = crc32(part, crc);
      held.push(part);
      if (bytes <= wholeMost) continue;
      for (const one of held.splice(0)) {
        short.update(one);
        long.update(one);
      }
    }
    if (bytes <= wholeMost) return { ...(await atOnce(joined(held, bytes))), bytes, crc };
    return { sha256: hexOf(short.digest()), sha512: hexOf(long.digest()), bytes, crc };
  };

async function atOnce(bytes: Uint8Array): Promise<Pick<FileSums, "sha256" | "sha512">> {
  const digest = async (name: string): Promise<string> =>
    hexOf(new Uint8Array(await crypto.subtle.digest(name, bytes as Uint8Array<ArrayBuffer>)));
  return { sha256: await digest("SHA-256"), sha512: await digest("SHA-512") };
}

const hexOf = (bytes: Uint8Array): string =>
  Array.from(bytes, (byte) => byte.toString(16).padStart(2, "0")).join("");
