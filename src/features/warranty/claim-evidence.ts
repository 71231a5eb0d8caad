import type { FirmTransaction } from "../../db/scope.ts";
import { nextClaimStates } from "../../domain/warranty/claim-life.ts";
import { invalid, notFound, Problem } from "../../errors.ts";
import { findEvidenceExport } from "../evidence-exports/store.ts";
import {
  addClaimEvidence,
  type EvidenceRow,
  findDocumentById,
  listClaimEvidence,
  removeClaimEvidence,
} from "./claim-evidence-store.ts";
import type { ClaimEvidence, NewClaimEvidence } from "./claim-schemas.ts";
import type { ClaimRow } from "./claim-store.ts";
import { noteClaim, readClaim } from "./keep-claim.ts";
import type { By } from "./keep-warranty.ts";

export const EVIDENCE_MOST = 50;

/** Attaches a bag or a document; one that is attached already stays as it is. */
export async function attachEvidence(
  tx: FirmTransaction,
  claimId: string,
  what: NewClaimEvidence,
  by: By,
): Promise<ClaimEvidence> {
  const claim = await readClaim(tx, claimId);
  requireOpen(claim);
  if ((await listClaimEvidence(tx, claimId, EVIDENCE_MOST)).length === EVIDENCE_MOST) {
    throw new Problem("conflict", `A claim takes at most ${EVIDENCE_MOST} pieces of evidence.`);
  }
  const exportId = "exportId" in what ? what.exportId : null;
  const documentId = "documentId" in what ? what.documentId : null;
  const sha256 = await sha256Of(tx, { exportId, documentId });
  const fields = { claimId, exportId, documentId, addedById: by.personId, addedAt: by.now };
  const added = await addClaimEvidence(tx, fields);
  if (added) {
    const body = exportId ? { exportId } : { documentId, sha256 };
    await noteClaim(tx, claim, "warranty.evidence-attached", body, by);
  }
  const rows = await listClaimEvidence(tx, claimId, EVIDENCE_MOST);
  const row = rows.find((one) => one.exportId === exportId && one.documentId === documentId);
  if (!row) throw new Error("evidence just attached is not there");
  return shownEvidence(row);
}

/** Takes off what was attached by a slip; the ledger keeps both. */
export async function detachEvidence(
  tx: FirmTransaction,
  claimId: string,
  id: string,
  by: By,
): Promise<void> {
  const claim = await readClaim(tx, claimId);
  requireOpen(claim);
  if (!(await removeClaimEvidence(tx, claimId, id))) throw notFound("evidence");
  await noteClaim(tx, claim, "warranty.evidence-removed", { evidenceId: id }, by);
}

export async function evidenceOf(tx: FirmTransaction, claimId: string): Promise<ClaimEvidence[]> {
  return (await listClaimEvidence(tx, claimId, EVIDENCE_MOST)).map(shownEvidence);
}

/** What a claim rested on when it ended is not changed afterwards. */
function requireOpen({ state, reference }: ClaimRow): void {
  if (nextClaimStates(state as ClaimState).length > 0) return;
  throw new Problem("conflict", `${reference} is ${state}: its evidence stays as it is.`);
}
type ClaimState = Parameters<typeof nextClaimStates>[0];

async function sha256Of(
  tx: FirmTransaction,
  { exportId, documentId }: { exportId: string | null; documentId: string | null },
): Promise<string | null> {
  if (exportId) {
    const row = await findEvidenceExport(tx, exportId);
    if (!row) throw invalid("/body/exportId", "There is no such export in your firm.");
    return row.sha256;
  }
  const row = documentId ? await findDocumentById(tx, documentId) : null;
  if (!row) throw invalid("/body/documentId", "There is no such document in your firm.");
  return row.sha256;
}

function shownEvidence(row: EvidenceRow): ClaimEvidence {
  const { id, exportId, documentId, export: bag, document, addedAt } = row;
  return {
    ...{ id, kind: bag ? "bag" : "document", exportId, documentId },
    jobId: document?.jobId ?? null,
    name: bag?.fileName ?? document?.name ?? "",
    state: bag?.state ?? "ready",
    sha256: bag?.sha256 ?? document?.sha256 ?? null,
    addedAt: addedAt.toISOString(),
  };
}
