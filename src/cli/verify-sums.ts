import { createHash } from "node:crypto";
import { crc32 } from "node:zlib";
import type { Summing } from "../verify/bag-sums.ts";

export const sumsOf: Summing = async (parts) => {
  const [sha256, sha512] = [createHash("sha256"), createHash("sha512")];
  let [bytes, crc] = [0, 0];
  for await (const part of parts) {
    sha256.update(part);
    sha512.update(part);
    crc = crc32(part, crc);
    bytes += part.length;
  }
  return { sha256: sha256.digest("hex"), sha512: sha512.digest("hex"), bytes, crc };
};
