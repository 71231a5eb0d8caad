import type { Readable } from "node:stream";
import type { Config } from "../../config.ts";
import { inFirm } from "../../db/scope.ts";
import { Problem } from "../../errors.ts";
import type { Context } from "../../web/feature.ts";
import { listLedger } from "../ledger/store.ts";
import { type House, readHouse } from "../papers/house.ts";
import { certificate } from "../papers/make-paper.ts";
import { type FilesHome, fileStorage } from "../photos/files.ts";
import { timeStampService } from "./ask-for-stamp.ts";
import { type BagParts, bagFiles } from "./bag-files.ts";
import { recordFiles } from "./bag-payload.ts";
import { newSums } from "./bag-streams.ts";
import { zipBag } from "./bag-zip.ts";
import { sealManifest } from "./seal-manifest.ts";
import { type SealedRecord, sealRecord } from "./seal-record.ts";
import type { KeyPlace } from "./signing-key.ts";

export const certificatesPath = (firmId: string): string =>
  `/.well-known/holdpoint/${firmId}/certificates.pem`;

export interface Export {
  firmId: string;
  personId: string;
  jobId: string;
  /** Told why the bag has no time stamp although there is a service. */
  onUnstamped(problem: string): void;
}

/** The evidence bag of a job, as a stream, with the name of its file. */
export async function exportBag(
  context: Context,
  { firmId, personId, jobId, onUnstamped }: Export,
): Promise<{ fileName: string; bag: Readable }> {
  const { db, config, now } = context;
  const place: KeyPlace = { db, now, dataFolder: config.dataFolder };
  const { record, house } = await inFirm(db, firmId, async (tx) => {
    const sealed = await sealRecord(tx, place, jobId, personId);
    await requirePhotos(config, firmId, sealed);
    return { record: sealed, house: await readHouse(tx) };
  });
  const { reference } = record.job;
  const sums = newSums();
  const service = timeStampService(config);
  const parts: BagParts = {
    key: record.key,
    readMe: {
      ...{ title: `job ${reference}`, jobs: 0, entries: record.extent.seq },
      ...{ ledgers: "data/ledger", certificates: certificatesAddress(config, firmId) },
    },
    payload: recordFiles("data", record, recordSources(context, { firmId, jobId, record, house })),
    info: () => infoOf(record),
    service,
    seal: async (manifest) => {
      const seals = await sealManifest(place, service, {
        firmId,
        jobId,
        key: record.key,
        manifest,
      });
      if (seals.problem) onUnstamped(seals.problem);
      return seals;
    },
  };
  const folder = bagName(`${reference}-${record.extent.seq}`);
  return { fileName: `${folder}.zip`, bag: zipBag(folder, bagFiles(parts, sums), sums) };
}

/** A bag's own name, and that of its file. */
export const bagName = (mark: string): string => `EV-${mark.replaceAll(/[^A-Za-z0-9-]+/g, "-")}`;

export const certificatesAddress = (config: Pick<Config, "PUBLIC_URL">, firmId: string): string =>
  `${config.PUBLIC_URL ?? ""}${certificatesPath(firmId)}`;

const infoOf = ({ job, extent }: SealedRecord) => ({
  "Source-Organization": job.firmName,
  "External-Identifier": job.reference,
  "External-Description": `Evidence of job ${job.reference}`,
  "Bagging-Date": extent.at.slice(0, 10),
  "Ledger-Entries": String(extent.seq),
  "Ledger-Head": extent.sha256,
  "Evidence-Format": "evidence-bag/1",
});

interface Sealed {
  firmId: string;
  jobId: string;
  record: SealedRecord;
  house: House;
}

export function recordSources(
  context: Pick<Context, "db" | "config">,
  { firmId, jobId, record, house }: Sealed,
) {
  const storage = fileStorage(context.config);
  return {
    certificate: () => certificate(context.config, { firmId, jobId, record, house }),
    photo: (sha256: string) => storage.open({ firmId, sha256 }),
    ledger: () => ledgerTexts(context, firmId, jobId, record.extent.seq),
  };
}

/** Looked for before the first byte leaves: half a bag cannot be taken back. */
export async function requirePhotos(
  home: FilesHome,
  firmId: string,
  { photos, job }: SealedRecord,
): Promise<void> {
  const storage = fileStorage(home);
  for (const { sha256, bytes } of photos) {
    if ((await storage.size({ firmId, sha256 })) === bytes) continue;
    const detail =
      `The photo ${sha256} of ${job.reference} is not in the data folder as it came in. ` +
      "Restore it from a backup, then export again.";
    throw new Problem("evidence-damaged", detail, { photo: sha256 });
  }
}

const ENTRIES_A_PAGE = 200;

async function* ledgerTexts(
  { db }: Pick<Context, "db">,
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
