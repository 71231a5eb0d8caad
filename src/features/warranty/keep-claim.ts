import type { FirmTransaction } from "../../db/scope.ts";
import { type ClaimState, nextClaimStates } from "../../domain/warranty/claim-life.ts";
import { invalid, notFound, Problem } from "../../errors.ts";
import { editedMeanwhile } from "../../web/etag.ts";
import { findJob } from "../jobs/store.ts";
import { findUnit } from "../units/store.ts";
import type { ClaimMove, NewClaim } from "./claim-schemas.ts";
import { addClaim, type ClaimRow, findClaim, moveClaim, swapsOf } from "./claim-store.ts";
import { type By, noteOnLedger } from "./keep-warranty.ts";

export async function openClaim(
  tx: FirmTransaction,
  { unitId, jobId, fault }: NewClaim,
  by: By,
): Promise<ClaimRow> {
  if (!(await findUnit(tx, unitId))) {
    throw invalid("/body/unitId", "There is no such unit in your firm.");
  }
  const job = jobId === undefined ? null : await findJob(tx, jobId);
  if (job === undefined || (jobId !== undefined && !job)) {
    throw invalid("/body/jobId", "There is no such job in your firm.");
  }
  if (job?.state === "cancelled") {
    throw invalid("/body/jobId", `${job.reference} is cancelled: name another job or none.`);
  }
  const fields = { unitId, jobId: jobId ?? null, fault, createdById: by.personId };
  const claim = await addClaim(tx, fields, by.now);
  await noteClaim(tx, claim, "warranty.claim-opened", {}, by);
  return claim;
}

/** Takes a claim one step on, never back. */
export async function stepClaim(
  tx: FirmTransaction,
  id: string,
  version: number,
  { state, makerReference, note, replacementUnitId }: ClaimMove,
  by: By,
): Promise<ClaimRow> {
  const claim = await readClaim(tx, id);
  if (!nextClaimStates(claim.state as ClaimState).includes(state)) {
    throw new Problem("conflict", `${claim.reference} is ${claim.state}; it cannot be ${state}.`);
  }
  if (replacementUnitId !== undefined) {
    await requireSwap(tx, claim.unitId, { state, replacementUnitId });
  }
  const told = {
    ...(makerReference === undefined ? {} : { makerReference }),
    ...(replacementUnitId === undefined ? {} : { replacementUnitId }),
  };
  const change = { state, ...timeOf(state, by.now), ...told };
  const row = await moveClaim(tx, id, version, note === undefined ? change : { ...change, note });
  if (!row) throw editedMeanwhile();
  await noteClaim(tx, row, `warranty.claim-${state}`, told, by);
  return row;
}

export async function readClaim(tx: FirmTransaction, id: string): Promise<ClaimRow> {
  const claim = await findClaim(tx, id);
  if (!claim) throw notFound("claim");
  return claim;
}

export const noteClaim = (
  tx: FirmTransaction,
  { id: claimId, reference, unitId, jobId }: ClaimRow,
  kind: string,
  facts: object,
  by: By,
): Promise<void> => noteOnLedger(tx, unitId, kind, { claimId, reference, ...facts }, by, jobId);

/** The swap that answered a claim is one that took its unit out. */
async function requireSwap(
  tx: FirmTransaction,
  unitId: string,
  { state, replacementUnitId }: { state: string; replacementUnitId: string },
): Promise<void> {
  const pointer = "/body/replacementUnitId";
  if (state !== "settled") throw invalid(pointer, "is told when the claim is settled");
  const swaps = await swapsOf(tx, unitId);
  if (swaps.some((swap) => swap.unitId === replacementUnitId)) return;
  throw invalid(
    pointer,
    "did not come in a swap for the unit of this claim. Record the swap first.",
  );
}

function timeOf(state: ClaimMove["state"], now: Date) {
  if (state === "sent") return { sentAt: now };
  if (state === "accepted") return { answeredAt: now };
  return state === "refused" ? { answeredAt: now, endedAt: now } : { endedAt: now };
}
