import { uuidv7 } from "uuidv7";
import { Prisma } from "../../db/generated/client.ts";
import type { FirmTransaction } from "../../db/scope.ts";
import type { Condition, UnpackResults } from "../../domain/kit/unpack-checks.ts";

export interface GoodsInRow {
  unitId: string;
  condition: Condition;
  checks: UnpackResults;
  deliveryNote: string | null;
  place: string;
  note: string | null;
  personId: string;
}

export async function addGoodsIn(tx: FirmTransaction, row: GoodsInRow, at: Date): Promise<string> {
  const id = uuidv7();
  await tx.goodsIn.create({
    data: { firmId: tx.firmId, id, at, ...row, checks: { ...row.checks } },
  });
  return id;
}

export async function setStock(
  tx: FirmTransaction,
  id: string,
  change: { stockPlace?: string | null; quarantinedAt?: Date | null },
): Promise<void> {
  await tx.unit.update({
    where: { firmId_id: { firmId: tx.firmId, id } },
    data: { ...change, version: { increment: 1 } },
  });
}

export interface StockUnitRow {
  id: string;
  serial: string;
  modelId: string;
  modelCode: string;
  modelName: string;
  kind: string;
  place: string | null;
  quarantinedAt: Date | null;
  condition: Condition | null;
  deliveryNote: string | null;
  receivedAt: Date | null;
  jobId: string | null;
  jobReference: string | null;
}

export interface StockFilter {
  ids?: string[];
  modelId?: string;
  place?: string;
  serial?: string;
  quarantined?: boolean;
  free?: boolean;
  after?: string;
  most: number;
}

const OPEN_JOB = Prisma.sql`LEFT JOIN LATERAL (
    SELECT j.id, j.reference FROM job_unit ju
    JOIN job j ON j.firm_id = ju.firm_id AND j.id = ju.job_id
    WHERE ju.firm_id = u.firm_id AND ju.unit_id = u.id AND j.state = 'open'
    ORDER BY j.id LIMIT 1) job ON true`;

/** Units in stock, the last received first. */
export async function listStockUnits(
  tx: FirmTransaction,
  filter: StockFilter,
): Promise<StockUnitRow[]> {
  return tx.$queryRaw<StockUnitRow[]>`SELECT u.id, u.serial, u.model_id AS "modelId",
      m.code AS "modelCode", m.name AS "modelName", m.kind, u.stock_place AS place,
      u.quarantined_at AS "quarantinedAt", g.condition, g.delivery_note AS "deliveryNote",
      g.at AS "receivedAt", job.id AS "jobId", job.reference AS "jobReference"
    FROM unit u JOIN product_model m ON m.firm_id = u.firm_id AND m.id = u.model_id
    LEFT JOIN LATERAL (SELECT condition, delivery_note, at FROM goods_in g
      WHERE g.firm_id = u.firm_id AND g.unit_id = u.id ORDER BY g.at DESC, g.id DESC
      LIMIT 1) g ON true
    ${OPEN_JOB}
    WHERE u.firm_id = ${tx.firmId}::uuid AND u.state = 'received' AND ${conditions(filter)}
    ORDER BY u.id DESC LIMIT ${filter.most}`;
}

function conditions(filter: StockFilter): Prisma.Sql {
  const { ids, modelId, place, serial, quarantined, free, after } = filter;
  const all = [
    Prisma.sql`true`,
    ...(ids ? [Prisma.sql`u.id = ANY (${ids}::uuid[])`] : []),
    ...(modelId ? [Prisma.sql`u.model_id = ${modelId}::uuid`] : []),
    ...(place === undefined ? [] : [Prisma.sql`coalesce(u.stock_place, '') = ${place}`]),
    ...(serial ? [Prisma.sql`position(upper(${serial}) IN u.serial) > 0`] : []),
    ...(quarantined === undefined
      ? []
      : [Prisma.sql`(u.quarantined_at IS NOT NULL) = ${quarantined}`]),
    ...(free === undefined ? [] : [Prisma.sql`(job.id IS NULL) = ${free}`]),
    ...(after ? [Prisma.sql`u.id < ${after}::uuid`] : []),
  ];
  return Prisma.join(all, " AND ");
}

export interface StockCountRow {
  modelId: string;
  modelCode: string;
  modelName: string;
  place: string | null;
  units: number;
  free: number;
  quarantined: number;
}

/** By model and place. */
export async function countStock(tx: FirmTransaction, most: number): Promise<StockCountRow[]> {
  return tx.$queryRaw<StockCountRow[]>`SELECT m.id AS "modelId", m.code AS "modelCode",
      m.name AS "modelName", u.stock_place AS place, count(*)::int AS units,
      count(*) FILTER (WHERE job.id IS NULL AND u.quarantined_at IS NULL)::int AS free,
      count(u.quarantined_at)::int AS quarantined
    FROM unit u JOIN product_model m ON m.firm_id = u.firm_id AND m.id = u.model_id
    ${OPEN_JOB}
    WHERE u.firm_id = ${tx.firmId}::uuid AND u.state = 'received'
    GROUP BY m.id, m.code, m.name, u.stock_place ORDER BY m.code, u.stock_place LIMIT ${most}`;
}

/** Places in use, for a form to offer. */
export async function stockPlaces(tx: FirmTransaction, most: number): Promise<string[]> {
  const rows = await tx.$queryRaw<{ place: string }[]>`SELECT place FROM (
      SELECT DISTINCT stock_place AS place FROM unit
      WHERE firm_id = ${tx.firmId}::uuid AND state = 'received' AND stock_place IS NOT NULL
      UNION SELECT DISTINCT place FROM consumable_movement WHERE firm_id = ${tx.firmId}::uuid) p
    ORDER BY place LIMIT ${most}`;
  return rows.map(({ place }) => place);
}
