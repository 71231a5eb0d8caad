import { uuidv7 } from "uuidv7";
import { nextReference } from "../../db/references.ts";
import type { FirmTransaction } from "../../db/scope.ts";

interface ClaimFields {
  unitId: string;
  jobId: string | null;
  fault: string;
  createdById: string;
}

export async function addClaim(tx: FirmTransaction, fields: ClaimFields, now: Date) {
  const reference = await nextReference(tx, "W", now);
  return tx.warrantyClaim.create({
    data: { firmId: tx.firmId, id: uuidv7(), reference, ...fields, createdAt: now },
  });
}

export type ClaimRow = Awaited<ReturnType<typeof addClaim>>;

export async function findClaim(tx: FirmTransaction, id: string): Promise<ClaimRow | null> {
  return tx.warrantyClaim.findUnique({ where: { firmId_id: { firmId: tx.firmId, id } } });
}

export interface ClaimFilter {
  state?: string | undefined;
  /** The unit that is claimed for, or that came in answer. */
  unitId?: string | undefined;
  before?: string | undefined;
  most: number;
}

export async function claimsById(tx: FirmTransaction, ids: string[]): Promise<ClaimRow[]> {
  return tx.warrantyClaim.findMany({
    where: { firmId: tx.firmId, id: { in: ids } },
    take: ids.length,
  });
}

/** The latest first. */
export async function listClaims(tx: FirmTransaction, filter: ClaimFilter): Promise<ClaimRow[]> {
  const { state, unitId, before, most } = filter;
  return tx.warrantyClaim.findMany({
    where: {
      firmId: tx.firmId,
      ...(state ? { state } : {}),
      ...(unitId ? { OR: [{ unitId }, { replacementUnitId: unitId }] } : {}),
      ...(before ? { id: { lt: before } } : {}),
    },
    orderBy: { id: "desc" },
    take: most,
  });
}

/** Undefined when the claim has another version by now. */
export async function moveClaim(
  tx: FirmTransaction,
  id: string,
  version: number,
  change: Partial<Omit<ClaimRow, "firmId" | "id" | "version">>,
): Promise<ClaimRow | undefined> {
  const [row] = await tx.warrantyClaim.updateManyAndReturn({
    where: { firmId: tx.firmId, id, version },
    data: { ...change, version: { increment: 1 } },
  });
  return row;
}

export interface ClaimSwap {
  unitId: string;
  serial: string;
  at: Date;
}

/** The units that came in swaps for this one, the latest first. */
export async function swapsOf(tx: FirmTransaction, unitId: string): Promise<ClaimSwap[]> {
  return tx.$queryRaw<ClaimSwap[]>`
    SELECT u.id AS "unitId", u.serial, e.at FROM unit_event e
    JOIN unit u ON u.firm_id = e.firm_id AND u.id = e.other_unit_id
    WHERE e.firm_id = ${tx.firmId}::uuid AND e.unit_id = ${unitId}::uuid AND e.kind = 'swapped'
    ORDER BY e.at DESC LIMIT 20`;
}

export async function serialsOf(tx: FirmTransaction, ids: string[]) {
  const rows = await tx.unit.findMany({
    where: { firmId: tx.firmId, id: { in: ids } },
    select: { id: true, serial: true },
  });
  return new Map(rows.map(({ id, serial }) => [id, serial]));
}

/** Jobs that have the unit, those that put it into service first. */
export async function jobsOfUnit(tx: FirmTransaction, unitId: string) {
  return tx.$queryRaw<{ id: string; reference: string; title: string }[]>`
    SELECT j.id, j.reference, j.title FROM job_unit k
    JOIN job j ON j.firm_id = k.firm_id AND j.id = k.job_id AND j.state <> 'cancelled'
    WHERE k.firm_id = ${tx.firmId}::uuid AND k.unit_id = ${unitId}::uuid
    ORDER BY j.kind IN ('install', 'swap') DESC, j.id DESC LIMIT 50`;
}
