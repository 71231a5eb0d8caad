// Which files a bag holds, and in which order: by name, so that what is hashed comes before the
// manifests that list it.
import { Readable } from "node:stream";
import {
  BAG_ALGORITHMS,
  BAGIT_TXT,
  bagInfoText,
  manifestText,
  SIGNATURE,
  SIGNED_MANIFEST,
} from "../../domain/evidence/bag-manifest.ts";
import { photoName } from "../../domain/evidence/bag-record.ts";
import { canonicalize } from "../../domain/evidence/canonical-json.ts";
import { HEAD_FILE, LEDGER_FILE } from "../../domain/evidence/recheck-ledger.ts";
import type { BagFile, BagSums } from "./bag-streams.ts";
import { readMeText } from "./read-me.ts";
import type { SealedRecord } from "./seal-record.ts";

export interface BagSources {
  photo(sha256: string): Readable;
  /** Texts of the ledger's entries up to the record's last, in order. */
  ledger(): AsyncIterable<string>;
  sign(manifest: Buffer): Promise<Buffer>;
  certificates: string;
}

/** All files of the bag, by name. */
export function bagFiles(record: SealedRecord, sources: BagSources, sums: BagSums): BagFile[] {
  const payload = payloadFiles(record, sources);
  const tags = [
    text("README.txt", readMe(record, sources)),
    text("bag-info.txt", bagInfo(record, payload)),
    text("bagit.txt", BAGIT_TXT),
    text("certs/signer.pem", record.key.certificate),
  ];
  const isPayload = (name: string): boolean => name.startsWith("data/");
  const isListed = (name: string): boolean => !isPayload(name) && !/^tagmanifest-/.test(name);
  const isSealed = (name: string): boolean => isListed(name) || name === SIGNATURE;
  const manifests = BAG_ALGORITHMS.map((algorithm) =>
    made(`manifest-${algorithm}.txt`, () => listing(sums[algorithm], isPayload)),
  );
  return [
    ...tags,
    ...payload,
    ...manifests,
    made(SIGNED_MANIFEST, () => listing(sums.sha256, isListed)),
    made(SIGNATURE, () => sources.sign(listing(sums.sha256, isListed))),
    made("tagmanifest-sha512.txt", () => listing(sums.sha512, isSealed)),
  ];
}

function payloadFiles(record: SealedRecord, sources: BagSources): BagFile[] {
  const { extent, photos, records, readings } = record;
  const ledger = async () => Readable.from(linesOf(sources.ledger()), { objectMode: false });
  return [
    { name: LEDGER_FILE, size: extent.bytes, open: ledger },
    text(HEAD_FILE, `${extent.sha256}\n`),
    ...photos.map((photo) => ({
      name: photoName(photo),
      size: photo.bytes,
      sha256: photo.sha256,
      open: async () => sources.photo(photo.sha256),
    })),
    text("data/readings.csv", readings),
    ...Object.entries(records).map(([name, value]) =>
      text(`data/records/${name}`, canonicalize(value)),
    ),
  ].sort((a, b) => (a.name < b.name ? -1 : 1));
}

async function* linesOf(texts: AsyncIterable<string>): AsyncIterable<Buffer> {
  for await (const entry of texts) yield Buffer.from(`${entry}\n`);
}

function text(name: string, content: string): BagFile {
  const bytes = Buffer.from(content);
  return { name, size: bytes.length, open: async () => whole(bytes) };
}

const made = (name: string, content: () => Buffer | Promise<Buffer>): BagFile => ({
  name,
  open: async () => whole(await content()),
});

const whole = (bytes: Buffer): Readable => Readable.from([bytes], { objectMode: false });

function listing(sums: ReadonlyMap<string, string>, isIn: (name: string) => boolean): Buffer {
  return Buffer.from(manifestText(new Map([...sums].filter(([name]) => isIn(name)))));
}

function bagInfo({ job, extent }: SealedRecord, payload: readonly BagFile[]): string {
  const octets = payload.reduce((sum, { size = 0 }) => sum + size, 0);
  return bagInfoText({
    "Source-Organization": job.firmName,
    "External-Identifier": job.reference,
    "External-Description": `Evidence of job ${job.reference}`,
    "Bagging-Date": extent.at.slice(0, 10),
    "Payload-Oxum": `${octets}.${payload.length}`,
    "Ledger-Entries": String(extent.seq),
    "Ledger-Head": extent.sha256,
    "Evidence-Format": "evidence-bag/1",
  });
}

function readMe({ job, extent, key }: SealedRecord, { certificates }: BagSources): string {
  const pairs = key.sha256.toUpperCase().match(/../g) ?? [];
  const { reference } = job;
  const fingerprint = pairs.join(":");
  return readMeText({ reference, entries: extent.seq, certificates, fingerprint });
}
