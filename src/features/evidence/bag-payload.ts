// What a bag states about one job: its files under one folder of the bag, in the order of their
// names. A file that is to be in every bag is added here.
import { Readable } from "node:stream";
import { photoName } from "../../domain/evidence/bag-record.ts";
import { canonicalize } from "../../domain/evidence/canonical-json.ts";
import { type BagFile, madeFile, textFile } from "./bag-streams.ts";
import type { SealedRecord } from "./seal-record.ts";

export interface RecordSources {
  /** The commissioning record as PDF. */
  certificate(): Promise<Buffer>;
  photo(sha256: string): Readable;
  /** Texts of the ledger's entries up to the record's last, in order. */
  ledger(): AsyncIterable<string>;
}

const PAYLOAD = "data/";

/** @param folder of the job's record in the bag, such as data */
export function recordFiles(
  folder: string,
  record: SealedRecord,
  sources: RecordSources,
): BagFile[] {
  const { extent, photos, records, readings, texts } = record;
  const ledger = async () => Readable.from(linesOf(sources.ledger()), { objectMode: false });
  const files: BagFile[] = [
    madeFile("certificate.pdf", sources.certificate),
    { name: "ledger/entries.jsonl", size: extent.bytes, open: ledger },
    textFile("ledger/head.txt", `${extent.sha256}\n`),
    textFile("ledger/texts.jsonl", texts.map((text) => `${canonicalize(text)}\n`).join("")),
    ...photos.map((photo) => ({
      name: photoName(photo).slice(PAYLOAD.length),
      size: photo.bytes,
      sha256: photo.sha256,
      sha512: record.photoSums.get(photo.sha256),
      open: async () => sources.photo(photo.sha256),
    })),
    textFile("readings.csv", readings),
    ...Object.entries(records).map(([name, value]) =>
      textFile(`records/${name}`, canonicalize(value)),
    ),
  ];
  return files
    .map((file) => ({ ...file, name: `${folder}/${file.name}` }))
    .sort((a, b) => (a.name < b.name ? -1 : 1));
}

async function* linesOf(texts: AsyncIterable<string>): AsyncIterable<Buffer> {
  for await (const entry of texts) yield Buffer.from(`${entry}\n`);
}
