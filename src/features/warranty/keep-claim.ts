import type { FirmTransaction } from "../../db/scope.ts";
import { type ClaimState, nextClaimStates } from "../../domain/warranty/claim-life.ts";
import { invalid, notFound, Problem } from "../../errors.ts";
import { editedMeanwhile } from "../../web/etag.ts";
import { findJob } from "../jobs/store.ts";
import { findUnit } from "../units/store.ts";
import type { ClaimMove, NewClaim } from "./claim-schemas.ts";
import { addClaim, type ClaimRow, findClaim, moveClaim } from "./claim-store.ts";

export async function openClaim(
  tx: FirmTransaction,
  { unitId, jobId, fault }: NewClaim,
  createdById: string,
  now: Date,
): Promise<ClaimRow> {
  if (!(await findUnit(tx, unitId))) {
    throw invalid("/body/unitId", "There is no such unit in your firm.");
  }
  if (jobId !== undefined && !(await findJob(tx, jobId))) {
    throw invalid("/body/jobId", "There is no such job in your firm.");
  }
  return addClaim(tx, { unitId, jobId: jobId ?? null, fault, createdById }, now);
}

/** Takes a claim one step on, never back. */
export async function stepClaim(
  tx: FirmTransaction,
  id: string,
  version: number,
  { state, makerReference, note }: ClaimMove,
  now: Date,
): Promise<ClaimRow> {
  const claim = await findClaim(tx, id);
  if (!claim) throw notFound("claim");
  if (!nextClaimStates(claim.state as ClaimState).includes(state)) {
    throw new Problem("conflict", `${claim.reference} is ${claim.state}; it cannot be ${state}.`);
  }
  const row = await moveClaim(tx, id, version, {
    ...{ state, ...timeOf(state, now) },
    ...(makerReference === undefined ? {} : { makerReference }),
    ...(note === undefined ? {} : { note }),
  });
  if (!row) throw editedMeanwhile();
  return row;
}

function timeOf(state: ClaimMove["state"], now: Date) {
  if (state === "sent") return { sentAt: now };
  if (state === "accepted") return { answeredAt: now };
  return state === "refused" ? { answeredAt: now, endedAt: now } : { endedAt: now };
}
