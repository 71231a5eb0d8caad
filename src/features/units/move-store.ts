import { uuidv7 } from "uuidv7";
import type { FirmTransaction } from "../../db/scope.ts";
import type { UnitState } from "./store.ts";

export interface MoveJob {
  id: string;
  siteId: string;
  reference: string;
}

export async function lockJob(
  tx: FirmTransaction,
  id: string,
): Promise<(MoveJob & { state: string }) | undefined> {
  const [job] = await tx.$queryRaw<(MoveJob & { state: string })[]>`
    SELECT id, site_id AS "siteId", reference, state FROM job
    WHERE firm_id = ${tx.firmId}::uuid AND id = ${id}::uuid FOR UPDATE`;
  return job;
}

/** The bank's version moves with its packs, and two packs cannot take one place of it. */
export async function lockBank(tx: FirmTransaction, id: string) {
  const [bank] = await tx.bank.updateManyAndReturn({
    where: { firmId: tx.firmId, id },
    data: { version: { increment: 1 } },
  });
  return bank;
}

export async function lockUnits(tx: FirmTransaction, ids: string[]): Promise<void> {
  await tx.$queryRaw`
    SELECT id FROM unit WHERE firm_id = ${tx.firmId}::uuid AND id = ANY (${ids}::uuid[])
    ORDER BY id FOR NO KEY UPDATE`;
}

export async function findPackAt(tx: FirmTransaction, bankId: string, bankPosition: number) {
  return tx.unit.findFirst({
    where: { firmId: tx.firmId, bankId, bankPosition },
    select: { id: true, serial: true },
  });
}

/** Where a unit of the same serial is installed, under whichever product model. */
export async function findLiveSerial(tx: FirmTransaction, serial: string, exceptIds: string[]) {
  return tx.unit.findFirst({
    where: { firmId: tx.firmId, serial, state: "installed", id: { notIn: exceptIds } },
    select: { id: true, site: { select: { id: true, reference: true } } },
  });
}

export async function findLastMove(tx: FirmTransaction, unitIds: string[]) {
  return tx.unitEvent.findFirst({
    where: { firmId: tx.firmId, unitId: { in: unitIds }, kind: { not: "received" } },
    orderBy: { at: "desc" },
    select: { at: true, kind: true },
  });
}

export interface UnitPlace {
  state: UnitState;
  siteId: string | null;
  bankId: string | null;
  bankPosition: number | null;
  replacesUnitId?: string;
  hardwareRevision?: string;
  note?: string;
}

export const NOWHERE = { siteId: null, bankId: null, bankPosition: null } as const;

const LEFT = { stockPlace: null };
const OUT_OF_STOCK = { received: {}, installed: LEFT, swapped: LEFT, removed: LEFT } as const;

export async function placeUnit(tx: FirmTransaction, id: string, place: UnitPlace): Promise<void> {
  await tx.unit.update({
    where: { firmId_id: { firmId: tx.firmId, id } },
    data: { ...place, ...OUT_OF_STOCK[place.state], version: { increment: 1 } },
  });
}

export interface NewUnitEvent {
  unitId: string;
  kind: UnitState | "quarantined" | "released";
  siteId?: string;
  jobId?: string;
  personId: string;
  at: Date;
  note?: string;
  otherUnitId?: string;
}

export async function addUnitEvent(tx: FirmTransaction, event: NewUnitEvent): Promise<string> {
  const id = uuidv7();
  await tx.unitEvent.create({ data: { firmId: tx.firmId, id, ...event } });
  return id;
}

/** What the job has to prove is proven of the unit that stays. */
export async function followSwapOnJob(
  tx: FirmTransaction,
  jobId: string,
  oldUnitId: string,
  newUnitId: string,
): Promise<void> {
  const where = { firmId: tx.firmId, jobId };
  const listed = await tx.jobUnit.count({ where: { ...where, unitId: newUnitId } });
  if (listed > 0) return;
  await tx.jobUnit.updateMany({
    where: { ...where, unitId: oldUnitId },
    data: { unitId: newUnitId },
  });
}
