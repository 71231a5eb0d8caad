// Files of a bag on their way into it: each is hashed as it passes, so that nothing is read twice
// and nothing large is held.
import { createHash, type Hash } from "node:crypto";
import { Readable, Transform } from "node:stream";
import { BAG_ALGORITHMS, type BagAlgorithm } from "../../domain/evidence/bag-manifest.ts";
import { lend } from "../photos/pieces.ts";

/** A file of the bag; opened when its turn comes, after those before it have passed. */
export interface BagFile {
  name: string;
  /** Left out where it is not known before. */
  size?: number;
  /** SHA-256 that the bytes must have. */
  sha256?: string;
  /** SHA-512 of whatever has that SHA-256, where it is known. */
  sha512?: string | undefined;
  open(): Promise<Readable>;
}

/** Checksums of the files that have passed, by algorithm and name. */
export type BagSums = Record<BagAlgorithm, Map<string, string>> & {
  /** Octets and files of the payload (RFC 8493, 2.2.2). */
  payload: { octets: number; files: number };
};

export const newSums = (): BagSums => ({
  ...{ sha256: new Map(), sha512: new Map() },
  payload: { octets: 0, files: 0 },
});

export const textFile = (name: string, content: string): BagFile =>
  bytesFile(name, Buffer.from(content));

export const bytesFile = (name: string, bytes: Buffer): BagFile => ({
  ...{ name, size: bytes.length },
  open: async () => whole(bytes),
});

/** A file whose bytes are made when its turn comes, for it alone. */
export const madeFile = (name: string, content: () => Buffer | Promise<Buffer>): BagFile => ({
  name,
  open: async () => whole(lend(await content())),
});

const whole = (bytes: Buffer): Readable => Readable.from([bytes], { objectMode: false });

/** Passes a file on and notes its checksums; fails where they are not what they must be. */
export function summing(
  file: Pick<BagFile, "name" | "sha256" | "sha512">,
  sums: BagSums,
): Transform {
  const known = file.sha256 === undefined ? undefined : file.sha512;
  if (known !== undefined) sums.sha512.set(file.name, known);
  const hashes = BAG_ALGORITHMS.filter((name) => name !== "sha512" || known === undefined).map(
    (name): [BagAlgorithm, Hash] => [name, createHash(name)],
  );
  let octets = 0;
  return new Transform({
    transform(chunk: Buffer, _encoding, done) {
      for (const [, hash] of hashes) hash.update(chunk);
      octets += chunk.length;
      done(null, chunk);
    },
    flush(done) {
      if (file.name.startsWith("data/")) {
        sums.payload.octets += octets;
        sums.payload.files += 1;
      }
      for (const [name, hash] of hashes) sums[name].set(file.name, hash.digest("hex"));
      const found = sums.sha256.get(file.name);
      const wrong = file.sha256 !== undefined && file.sha256 !== found;
      done(wrong ? new Error(`${file.name} has the SHA-256 ${found}`) : null);
    },
  });
}
