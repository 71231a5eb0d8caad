import { uuidv7 } from "uuidv7";
import type { FirmPipeline, FirmTransaction } from "../../db/scope.ts";
import { normaliseSerial } from "../../domain/identifiers/check-serial.ts";

export type UnitState = "received" | "installed" | "swapped" | "removed";

export interface UnitRow {
  id: string;
  modelId: string;
  modelCode: string;
  kind: string;
  serial: string;
  hardwareRevision: string | null;
  note: string | null;
  stockPlace: string | null;
  quarantinedAt: Date | null;
  state: UnitState;
  siteId: string | null;
  siteReference: string | null;
  bankId: string | null;
  bankPosition: number | null;
  replacesUnitId: string | null;
  firmwareLevel: string | null;
  firmwareReadAt: Date | null;
  createdAt: Date;
  version: number;
}

export const UNIT_COLUMNS = `u.id, u.model_id AS "modelId", m.code AS "modelCode", m.kind, u.serial,
  u.hardware_revision AS "hardwareRevision", u.note, u.state,
  u.stock_place AS "stockPlace", u.quarantined_at AS "quarantinedAt", u.site_id AS "siteId",
  s.reference AS "siteReference", u.bank_id AS "bankId", u.bank_position AS "bankPosition",
  u.replaces_unit_id AS "replacesUnitId", u.firmware_level AS "firmwareLevel",
  u.firmware_read_at AS "firmwareReadAt", u.created_at AS "createdAt", u.version`;

export const UNIT_SOURCE = `unit u
  JOIN product_model m ON m.firm_id = u.firm_id AND m.id = u.model_id
  LEFT JOIN site s ON s.firm_id = u.firm_id AND s.id = u.site_id`;

export interface UnitFilter {
  serial?: string;
  modelId?: string;
  siteId?: string;
  state?: UnitState;
  firmwareLevel?: string;
  after?: string;
  most: number;
}

/** Not named, so that each combination of filters, and each size of firm, gets its own plan. */
export async function listUnits(pipeline: FirmPipeline, filter: UnitFilter): Promise<UnitRow[]> {
  const values: unknown[] = [pipeline.firmId];
  const where = ["u.firm_id = $1"];
  const require = (condition: (place: string) => string, value: unknown): void => {
    if (value === undefined) return;
    values.push(value);
    where.push(condition(`$${values.length}`));
  };
  const part = filter.serial === undefined ? undefined : normaliseSerial(filter.serial);
  require((place) => `u.id > ${place}::uuid`, filter.after);
  require((place) => `position(${place} IN u.serial) > 0`, part);
  require((place) => `u.model_id = ${place}::uuid`, filter.modelId);
  require((place) => `u.site_id = ${place}::uuid`, filter.siteId);
  require((place) => `u.state = ${place}`, filter.state);
  require((place) => `u.firmware_level = ${place}`, filter.firmwareLevel);
  values.push(filter.most);
  const [result] = await pipeline.commit({
    text: `SELECT ${UNIT_COLUMNS} FROM ${UNIT_SOURCE}
      WHERE ${where.join(" AND ")} ORDER BY u.id LIMIT $${values.length}`,
    values,
  });
  return result?.rows as UnitRow[];
}

/** One named statement and one round trip, for the most read address of a fleet. */
export async function readUnit(pipeline: FirmPipeline, id: string): Promise<UnitRow | undefined> {
  const [result] = await pipeline.commit({
    name: "unit",
    text: `SELECT ${UNIT_COLUMNS} FROM ${UNIT_SOURCE} WHERE u.firm_id = $1 AND u.id = $2`,
    values: [pipeline.firmId, id],
  });
  return result?.rows[0] as UnitRow | undefined;
}

export async function findUnit(tx: FirmTransaction, id: string): Promise<UnitRow | undefined> {
  const [row] = await tx.$queryRawUnsafe<UnitRow[]>(
    `SELECT ${UNIT_COLUMNS} FROM ${UNIT_SOURCE} WHERE u.firm_id = $1::uuid AND u.id = $2::uuid`,
    tx.firmId,
    id,
  );
  return row;
}

export async function findUnitBySerial(
  tx: FirmTransaction,
  modelId: string,
  serial: string,
): Promise<UnitRow | undefined> {
  const found = await tx.unit.findUnique({
    where: { firmId_modelId_serial: { firmId: tx.firmId, modelId, serial } },
    select: { id: true },
  });
  return found ? findUnit(tx, found.id) : undefined;
}

/** Undefined when the model has a unit of this serial already. */
export async function addUnitUnlessKnown(
  tx: FirmTransaction,
  unit: { modelId: string; serial: string; hardwareRevision?: string; note?: string },
): Promise<string | undefined> {
  const id = uuidv7();
  const { count } = await tx.unit.createMany({
    data: [{ firmId: tx.firmId, id, state: "received", ...unit }],
    skipDuplicates: true,
  });
  return count === 1 ? id : undefined;
}

/** False when the row has another version by now. */
export async function editUnit(
  tx: FirmTransaction,
  id: string,
  version: number,
  change: { hardwareRevision?: string | null; note?: string | null },
): Promise<boolean> {
  const { count } = await tx.unit.updateMany({
    where: { firmId: tx.firmId, id, version },
    data: { ...change, version: { increment: 1 } },
  });
  return count === 1;
}
