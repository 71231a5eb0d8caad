import type { Readable } from "node:stream";
import { inFirm } from "../../db/scope.ts";
import { Problem } from "../../errors.ts";
import type { Context } from "../../web/feature.ts";
import { listLedger } from "../ledger/store.ts";
import { openPhoto, photoBytes } from "../photos/folder.ts";
import { bagFiles } from "./bag-files.ts";
import { newSums } from "./bag-streams.ts";
import { zipBag } from "./bag-zip.ts";
import { type SealedRecord, sealRecord } from "./seal-record.ts";
import { type KeyPlace, signManifest } from "./signing-key.ts";

export const certificatesPath = (firmId: string): string =>
  `/.well-known/holdpoint/${firmId}/certificates.pem`;

export interface Export {
  firmId: string;
  personId: string;
  jobId: string;
}

/** The evidence bag of a job, as a stream, with the name of its file. */
export async function exportBag(
  context: Context,
  { firmId, personId, jobId }: Export,
): Promise<{ fileName: string; bag: Readable }> {
  const { db, config, now } = context;
  const { dataFolder } = config;
  const place: KeyPlace = { db, now, dataFolder };
  const record = await inFirm(db, firmId, async (tx) => {
    const sealed = await sealRecord(tx, place, jobId, personId);
    await requirePhotos(dataFolder, firmId, sealed);
    return sealed;
  });
  const sums = newSums();
  const sources = {
    photo: (sha256: string) => openPhoto(dataFolder, firmId, sha256),
    ledger: () => ledgerTexts(context, firmId, jobId, record.extent.seq),
    sign: (manifest: Buffer) => signManifest(place, { firmId, jobId, key: record.key, manifest }),
    certificates: `${config.PUBLIC_URL ?? ""}${certificatesPath(firmId)}`,
  };
  const folder = `EV-${record.job.reference}-${record.extent.seq}`;
  return {
    fileName: `${folder}.zip`,
    bag: zipBag(folder, bagFiles(record, sources, sums), sums),
  };
}

/** Looked for before the first byte leaves: half a bag cannot be taken back. */
async function requirePhotos(
  dataFolder: string,
  firmId: string,
  { photos, job }: SealedRecord,
): Promise<void> {
  for (const { sha256, bytes } of photos) {
    if ((await photoBytes(dataFolder, firmId, sha256)) === bytes) continue;
    const detail =
      `The photo ${sha256} of ${job.reference} is not in the data folder as it came in. ` +
      "Restore it from a backup, then export again.";
    throw new Problem("evidence-damaged", detail, { photo: sha256 });
  }
}

const ENTRIES_A_PAGE = 200;

async function* ledgerTexts(
  { db }: Context,
  firmId: string,
  jobId: string,
  through: number,
): AsyncIterable<string> {
  for (let after = 0; after < through; after += ENTRIES_A_PAGE) {
    const most = Math.min(ENTRIES_A_PAGE, through - after);
    const page = await inFirm(db, firmId, (tx) => listLedger(tx, jobId, { after, most }));
    for (const { text } of page) yield text;
  }
}
