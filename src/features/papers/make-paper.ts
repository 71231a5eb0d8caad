import type { Config } from "../../config.ts";
import { inFirm } from "../../db/scope.ts";
import type { Context } from "../../web/feature.ts";
import { readJob } from "../close-out/store.ts";
import { listDocuments } from "../documents/store.ts";
import { readStatedRecord, type StatedRecord } from "../evidence/seal-record.ts";
import { commissioningRecord } from "./commissioning-record.ts";
import { drawInThread } from "./draw-in-thread.ts";
import { handoverPack } from "./handover-pack.ts";
import { type House, type PaperWish, readHouse } from "./house.ts";
import { keptPaper } from "./kept-papers.ts";
import { PHOTOS_MOST } from "./parts.ts";
import type { PaperSource, RecordFiles } from "./record.ts";
import { smallCopies } from "./small-copies.ts";

export interface MadePaper {
  fileName: string;
  pdf: Buffer;
}

export async function makeCommissioningRecord(
  { db, config }: Pick<Context, "db" | "config">,
  { firmId, jobId, ...wish }: PaperWish & { firmId: string; jobId: string },
): Promise<MadePaper> {
  const [record, house] = await inFirm(db, firmId, async (tx) => [
    await readStatedRecord(tx, jobId),
    await readHouse(tx, wish),
  ]);
  const pdf = await certificate(config, { firmId, jobId, record, house });
  return { fileName: `CR-${record.job.reference}-${record.extent.seq}.pdf`, pdf };
}

const DOCUMENTS_MOST = 50;

export async function makeHandoverPack(
  { db, config }: Pick<Context, "db" | "config">,
  { firmId, jobId, ...wish }: PaperWish & { firmId: string; jobId: string },
): Promise<MadePaper> {
  const { record, house, handover } = await inFirm(db, firmId, async (tx) => {
    const stated = await readStatedRecord(tx, jobId);
    const documents = await listDocuments(tx, jobId, { most: DOCUMENTS_MOST });
    const job = await readJob(tx, jobId);
    return {
      record: stated,
      house: await readHouse(tx, wish),
      handover: {
        customer: job?.site.customer.name ?? "",
        documents: documents.map(({ name }) => name),
      },
    };
  });
  const place = { dataFolder: config.dataFolder, firmId, jobId };
  const { records, extent } = record;
  const seen = {
    paper: "handover-pack",
    records,
    extent,
    house,
    handover,
    from: config.PUBLIC_URL,
  };
  const pdf = await keptPaper(place, seen, async () =>
    drawInThread(handoverPack(await sourceOf(config, firmId, record, house), handover)),
  );
  return { fileName: `HP-${record.job.reference}-${record.extent.seq}.pdf`, pdf };
}

/** The commissioning record of what an evidence bag states: drawn once, however often exported. */
export async function certificate(
  config: Config,
  { firmId, jobId, record, house }: Stated,
): Promise<Buffer> {
  const { records, extent } = record;
  const source = { paper: "commissioning-record", records, extent, house, from: config.PUBLIC_URL };
  return keptPaper({ dataFolder: config.dataFolder, firmId, jobId }, source, async () =>
    drawInThread(commissioningRecord(await sourceOf(config, firmId, record, house))),
  );
}

interface Stated {
  firmId: string;
  jobId: string;
  record: StatedRecord;
  house: House;
}

async function sourceOf(
  config: Config,
  firmId: string,
  { records, extent, photos }: StatedRecord,
  house: House,
): Promise<PaperSource> {
  const shown = photos.slice(0, PHOTOS_MOST);
  return {
    ...{ files: records as unknown as RecordFiles, extent, ...house },
    pictures: await smallCopies(config, firmId, shown),
    checkAddress: checkAddress(config, extent),
  };
}

const checkAddress = ({ PUBLIC_URL }: Config, { sha256 }: { sha256: string }) =>
  PUBLIC_URL && new URL(`/check?head=${sha256}`, PUBLIC_URL).href;
