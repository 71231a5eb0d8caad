import { uuidv7 } from "uuidv7";
import type { FirmTransaction } from "../../db/scope.ts";
import type { KitModel, KitUnit } from "../../domain/kit/kit-item.ts";
import type { ModelKitLine } from "../../domain/kit/line.ts";

const WITH_NAME = { person: { select: { name: true } } } as const;

/** Those that stand, in the order in which they were made. */
export async function listTicks(tx: FirmTransaction, jobId: string) {
  return tx.kitTick.findMany({
    where: { firmId: tx.firmId, jobId, undoneAt: null },
    include: WITH_NAME,
    orderBy: { id: "asc" },
    take: 2000,
  });
}

export type TickRow = Awaited<ReturnType<typeof listTicks>>[number];

export async function findTick(
  tx: FirmTransaction,
  jobId: string,
  id: string,
): Promise<TickRow | undefined> {
  const row = await tx.kitTick.findUnique({
    where: { firmId_id: { firmId: tx.firmId, id } },
    include: WITH_NAME,
  });
  return row?.jobId === jobId ? row : undefined;
}

/** The person's own tick of the line, made now or standing already. */
export async function addTick(
  tx: FirmTransaction,
  tick: { jobId: string; lineKey: string; personId: string },
  tickedAt: Date,
): Promise<{ row: TickRow; isNew: boolean }> {
  const { count } = await tx.kitTick.createMany({
    data: [{ firmId: tx.firmId, id: uuidv7(), tickedAt, ...tick }],
    skipDuplicates: true,
  });
  const row = await tx.kitTick.findFirstOrThrow({
    where: { firmId: tx.firmId, ...tick, undoneAt: null },
    include: WITH_NAME,
  });
  return { row, isNew: count === 1 };
}

/** False when it was taken back before. */
export async function undoTick(
  tx: FirmTransaction,
  id: string,
  undoneById: string,
  undoneAt: Date,
): Promise<boolean> {
  const { count } = await tx.kitTick.updateMany({
    where: { firmId: tx.firmId, id, undoneAt: null },
    data: { undoneAt, undoneById },
  });
  return count === 1;
}

interface UnitModelRow {
  id: string;
  serial: string;
  kind: string;
  modelCode: string;
  modelName: string;
  attributes: KitModel["attributes"];
  kit: ModelKitLine[];
  atSite: boolean;
}

/** The job's units, and the models of them. */
export async function readKitUnits(
  tx: FirmTransaction,
  jobId: string,
): Promise<{ units: KitUnit[]; models: KitModel[] }> {
  const rows = await tx.$queryRaw<UnitModelRow[]>`SELECT u.id, u.serial, m.kind,
      m.code AS "modelCode", m.name AS "modelName", m.attributes, m.kit,
      coalesce(u.state = 'installed' AND u.site_id = j.site_id, false) AS "atSite"
    FROM job_unit ju
    JOIN job j ON j.firm_id = ju.firm_id AND j.id = ju.job_id
    JOIN unit u ON u.firm_id = ju.firm_id AND u.id = ju.unit_id
    JOIN product_model m ON m.firm_id = u.firm_id AND m.id = u.model_id
    WHERE ju.firm_id = ${tx.firmId}::uuid AND ju.job_id = ${jobId}::uuid ORDER BY ju.position`;
  const models = new Map(
    rows.map(({ modelCode: code, modelName: name, attributes, kit }) => [
      code,
      { code, name, attributes, kit },
    ]),
  );
  const units = rows.map(({ id, serial, kind, modelCode, atSite }) => ({
    ...{ id, serial, kind, modelCode, atSite },
  }));
  return { units, models: [...models.values()] };
}
