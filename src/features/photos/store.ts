import { uuidv7 } from "uuidv7";
import type { FirmTransaction } from "../../db/scope.ts";
import type { Picture } from "./picture.ts";

export interface PhotoRow extends Picture {
  jobId: string;
  sha256: string;
  sha512: string;
  bytes: number;
  itemId: string | null;
  subject: string | null;
  personId: string;
}

/** False when the job has it already. */
export async function addPhoto(tx: FirmTransaction, photo: PhotoRow): Promise<boolean> {
  const { count } = await tx.photo.createMany({
    data: [{ firmId: tx.firmId, id: uuidv7(), ...photo }],
    skipDuplicates: true,
  });
  return count === 1;
}

export async function findPhoto(tx: FirmTransaction, jobId: string, sha256: string) {
  return tx.photo.findUnique({
    where: { firmId_jobId_sha256: { firmId: tx.firmId, jobId, sha256 } },
  });
}

export async function listPhotos(
  tx: FirmTransaction,
  jobId: string,
  page: { after?: string; most: number },
) {
  return tx.photo.findMany({
    where: { firmId: tx.firmId, jobId, ...(page.after ? { id: { gt: page.after } } : {}) },
    orderBy: { id: "asc" },
    take: page.most,
  });
}

/**
 * A photo may arrive after its job was closed only if an answer had promised it, or an operation of
 * a tablet, held ones too.
 */
export async function mayReceivePhoto(
  tx: FirmTransaction,
  jobId: string,
  sha256: string,
): Promise<"yes" | "no-job" | "closed"> {
  const job = await tx.job.findUnique({ where: { firmId_id: { firmId: tx.firmId, id: jobId } } });
  if (!job) return "no-job";
  if (job.state === "open") return "yes";
  const promised = await tx.answer.findFirst({
    where: { firmId: tx.firmId, jobId, photos: { has: sha256 } },
    select: { id: true },
  });
  if (promised) return "yes";
  const named = await tx.tabletOp.findFirst({
    where: { firmId: tx.firmId, jobId, photoSha256: { has: sha256 } },
    select: { opId: true },
  });
  return named ? "yes" : "closed";
}

/** SHA-512 of the job's photos by their SHA-256; of those whose it was worked out as they came. */
export async function photoSums(tx: FirmTransaction, jobId: string): Promise<Map<string, string>> {
  const rows = await tx.photo.findMany({
    where: { firmId: tx.firmId, jobId, sha512: { not: null } },
    select: { sha256: true, sha512: true },
  });
  return new Map(rows.map(({ sha256, sha512 }) => [sha256, sha512 as string]));
}
