// Which files a bag holds besides its payload, and in which order: what is hashed comes before the
// manifests that list it.
import {
  BAG_ALGORITHMS,
  BAGIT_TXT,
  bagInfoText,
  manifestText,
  SEALS,
  SIGNATURE,
  SIGNED_MANIFEST,
  TIME_STAMP,
  TIME_STAMP_ROOTS,
  TIME_STAMP_SERVICE,
} from "../../domain/evidence/bag-manifest.ts";
import type { TimeStampService } from "./ask-for-stamp.ts";
import { type BagFile, type BagSums, bytesFile, madeFile, textFile } from "./bag-streams.ts";
import type { KeyRow } from "./key-store.ts";
import { type ReadMe, readMeText } from "./read-me.ts";
import type { Seals } from "./seal-manifest.ts";

export interface BagParts {
  key: KeyRow;
  readMe: Omit<ReadMe, "fingerprint">;
  payload: Iterable<BagFile> | AsyncIterable<BagFile>;
  /** Members of bag-info.txt; asked for when the payload has passed. */
  info(): Readonly<Record<string, string>>;
  service: TimeStampService | undefined;
  seal(manifest: Buffer): Promise<Seals>;
}

/** All files of the bag. One is handed out when those before it have passed. */
export async function* bagFiles(parts: BagParts, sums: BagSums): AsyncGenerator<BagFile> {
  const { key, service } = parts;
  const fingerprint = (key.sha256.toUpperCase().match(/../g) ?? []).join(":");
  yield textFile("README.txt", readMeText({ ...parts.readMe, fingerprint }));
  yield textFile("bagit.txt", BAGIT_TXT);
  yield textFile("certs/signer.pem", key.certificate);
  if (service?.roots) yield textFile(TIME_STAMP_ROOTS, service.roots);
  yield* parts.payload;
  const { octets, files } = sums.payload;
  const oxum = { "Payload-Oxum": `${octets}.${files}` };
  const asked: Record<string, string> = service ? { [TIME_STAMP_SERVICE]: service.name } : {};
  yield textFile("bag-info.txt", bagInfoText({ ...parts.info(), ...asked, ...oxum }));
  for (const algorithm of BAG_ALGORITHMS) {
    const name = `manifest-${algorithm}.txt`;
    yield madeFile(name, () => listing(sums[algorithm], isPayload));
  }
  const manifest = listing(sums.sha256, isListed);
  yield bytesFile(SIGNED_MANIFEST, manifest);
  const { signature, timeStamp } = await parts.seal(manifest);
  yield bytesFile(SIGNATURE, signature);
  if (timeStamp) yield bytesFile(TIME_STAMP, timeStamp);
  yield madeFile("tagmanifest-sha512.txt", () => listing(sums.sha512, isSealed));
}

const isPayload = (name: string): boolean => name.startsWith("data/");
const isListed = (name: string): boolean => !isPayload(name) && !/^tagmanifest-/.test(name);
const isSealed = (name: string): boolean => isListed(name) || SEALS.includes(name);

function listing(sums: ReadonlyMap<string, string>, isIn: (name: string) => boolean): Buffer {
  return Buffer.from(manifestText(new Map([...sums].filter(([name]) => isIn(name)))));
}
