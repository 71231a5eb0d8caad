// A snag is closed by evidence: photos that show it mended, the proven job that mended it, or at
// least the words of who saw it, which stay with their name beside them.
import type { FirmTransaction } from "../../db/scope.ts";
import { type FieldError, invalid, Problem } from "../../errors.ts";
import { appendToLedger } from "../ledger/store.ts";
import { readSnag, type SnagRow } from "./keep-snag.ts";
import type { NewMending } from "./schemas.ts";
import { markMended, photosHeldOn } from "./store.ts";

export async function mendSnag(
  tx: FirmTransaction,
  id: string,
  { photos, note }: NewMending,
  personId: string,
  now: Date,
): Promise<SnagRow> {
  const before = await readSnag(tx, id);
  if (before.state === "open") await requireEvidence(tx, before, photos, note);
  const mending = { mendedById: personId, mendedPhotos: photos, mendedNote: note ?? null };
  const isMended = await markMended(tx, id, mending, now);
  const row = await readSnag(tx, id);
  if (!isMended) {
    const day = row.mendedAt?.toISOString().slice(0, 10);
    throw new Problem("conflict", `${row.mendedBy?.name} recorded it as mended on ${day}.`);
  }
  const { followUpJobId, mendedNote } = row;
  const body = { followUpJobId, note: mendedNote, personId, photos, snagId: id };
  await appendToLedger(tx, row.jobId, { kind: "snag.mended", body, at: now });
  return row;
}

async function requireEvidence(
  tx: FirmTransaction,
  { jobId, followUpJobId, followUpJob }: SnagRow,
  photos: string[],
  note: string | undefined,
): Promise<void> {
  const isProven = followUpJob?.state === "closed";
  if (photos.length === 0 && note === undefined && !isProven) {
    throw invalid(
      "/body/photos",
      "A snag is closed by evidence: name photos that show it mended, or say in note what was " +
        "done and who saw it.",
    );
  }
  const held = await photosHeldOn(tx, [jobId, ...(followUpJobId ? [followUpJobId] : [])], photos);
  const errors = photos.flatMap((sha256, index): FieldError[] => {
    const detail = "No such photo is held on the snag's job or its follow-up job; send it first.";
    return held.has(sha256) ? [] : [{ pointer: `/body/photos/${index}`, detail }];
  });
  if (errors[0]) throw new Problem("invalid-input", errors[0].detail, { errors });
}
