// Which files a bag holds besides its payload, and in which order: what is hashed comes before the
// manifests that list it.
import {
  BAG_ALGORITHMS,
  BAGIT_TXT,
  bagInfoText,
  manifestText,
  SIGNATURE,
  SIGNED_MANIFEST,
} from "../../domain/evidence/bag-manifest.ts";
import { type BagFile, type BagSums, madeFile, textFile } from "./bag-streams.ts";
import type { KeyRow } from "./key-store.ts";
import { type ReadMe, readMeText } from "./read-me.ts";

export interface BagParts {
  key: KeyRow;
  readMe: Omit<ReadMe, "fingerprint">;
  payload: Iterable<BagFile> | AsyncIterable<BagFile>;
  /** Members of bag-info.txt; asked for when the payload has passed. */
  info(): Readonly<Record<string, string>>;
  sign(manifest: Buffer): Promise<Buffer>;
}

/** All files of the bag. One is handed out when those before it have passed. */
export async function* bagFiles(parts: BagParts, sums: BagSums): AsyncGenerator<BagFile> {
  const { key } = parts;
  const fingerprint = (key.sha256.toUpperCase().match(/../g) ?? []).join(":");
  yield textFile("README.txt", readMeText({ ...parts.readMe, fingerprint }));
  yield textFile("bagit.txt", BAGIT_TXT);
  yield textFile("certs/signer.pem", key.certificate);
  yield* parts.payload;
  const { octets, files } = sums.payload;
  const oxum = { "Payload-Oxum": `${octets}.${files}` };
  yield textFile("bag-info.txt", bagInfoText({ ...parts.info(), ...oxum }));
  for (const algorithm of BAG_ALGORITHMS) {
    const name = `manifest-${algorithm}.txt`;
    yield madeFile(name, () => listing(sums[algorithm], isPayload));
  }
  yield madeFile(SIGNED_MANIFEST, () => listing(sums.sha256, isListed));
  yield madeFile(SIGNATURE, () => parts.sign(listing(sums.sha256, isListed)));
  yield madeFile("tagmanifest-sha512.txt", () => listing(sums.sha512, isSealed));
}

const isPayload = (name: string): boolean => name.startsWith("data/");
const isListed = (name: string): boolean => !isPayload(name) && !/^tagmanifest-/.test(name);
const isSealed = (name: string): boolean => isListed(name) || name === SIGNATURE;

function listing(sums: ReadonlyMap<string, string>, isIn: (name: string) => boolean): Buffer {
  return Buffer.from(manifestText(new Map([...sums].filter(([name]) => isIn(name)))));
}
