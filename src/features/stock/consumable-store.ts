import { uuidv7 } from "uuidv7";
import type { FirmTransaction } from "../../db/scope.ts";
import type { CountedIn } from "../../domain/kit/line.ts";

export interface ConsumableRow {
  id: string;
  code: string;
  name: string;
  countedIn: CountedIn;
  leastAmount: number | null;
  archived: boolean;
  amount: number;
  places: { place: string; amount: number }[];
  version: number;
}

export interface ConsumableFilter {
  ids?: string[];
  codes?: string[];
  code?: string;
  archived?: boolean;
  after?: string;
  most: number;
}

/** In the order of their codes, with what is there by place. */
export async function listConsumables(
  tx: FirmTransaction,
  filter: ConsumableFilter,
): Promise<ConsumableRow[]> {
  const { ids = null, codes = null, code = null, archived = null, after = null, most } = filter;
  return tx.$queryRaw<ConsumableRow[]>`SELECT c.id, c.code, c.name, c.counted_in AS "countedIn",
      c.least_amount::float8 AS "leastAmount", c.archived_at IS NOT NULL AS archived, c.version,
      coalesce(s.amount, 0)::float8 AS amount, coalesce(s.places, '[]') AS places
    FROM consumable c LEFT JOIN LATERAL (
      SELECT sum(p.amount) AS amount, json_agg(json_build_object('place', p.place,
        'amount', p.amount::float8) ORDER BY p.place) FILTER (WHERE p.amount <> 0) AS places
      FROM (SELECT place, sum(amount) AS amount FROM consumable_movement m
        WHERE m.firm_id = c.firm_id AND m.consumable_id = c.id GROUP BY place) p) s ON true
    WHERE c.firm_id = ${tx.firmId}::uuid
      AND (${ids}::uuid[] IS NULL OR c.id = ANY (${ids}::uuid[]))
      AND (${codes}::text[] IS NULL OR c.code = ANY (${codes}::text[]))
      AND (${code}::text IS NULL OR position(upper(${code}) IN c.code) > 0)
      AND (${archived}::boolean IS NULL OR (c.archived_at IS NOT NULL) = ${archived})
      AND (${after}::text IS NULL OR c.code > ${after})
    ORDER BY c.code LIMIT ${most}`;
}

export async function findConsumable(
  tx: FirmTransaction,
  id: string,
): Promise<ConsumableRow | undefined> {
  return (await listConsumables(tx, { ids: [id], most: 1 }))[0];
}

/** Undefined when another has this code. */
export async function addConsumable(
  tx: FirmTransaction,
  fields: { code: string; name: string; countedIn: CountedIn; leastAmount?: number | null },
): Promise<string | undefined> {
  const [row] = await tx.consumable.createManyAndReturn({
    data: [{ firmId: tx.firmId, id: uuidv7(), ...fields }],
    skipDuplicates: true,
  });
  return row?.id;
}

/** False when the row has another version by now. */
export async function editConsumable(
  tx: FirmTransaction,
  id: string,
  version: number,
  change: { name?: string; leastAmount?: number | null; archivedAt?: Date | null },
): Promise<boolean> {
  const { count } = await tx.consumable.updateMany({
    where: { firmId: tx.firmId, id, version },
    data: { ...change, version: { increment: 1 } },
  });
  return count === 1;
}

/** What lies at the place; whoever changes it is alone until the end of the transaction. */
export async function lockAmountAt(
  tx: FirmTransaction,
  consumableId: string,
  place: string,
): Promise<number> {
  await tx.$queryRaw`SELECT id FROM consumable
    WHERE firm_id = ${tx.firmId}::uuid AND id = ${consumableId}::uuid FOR NO KEY UPDATE`;
  const [row] = await tx.$queryRaw<{ amount: number }[]>`
    SELECT coalesce(sum(amount), 0)::float8 AS amount FROM consumable_movement
    WHERE firm_id = ${tx.firmId}::uuid AND consumable_id = ${consumableId}::uuid
      AND place = ${place}`;
  return row?.amount ?? 0;
}

export interface NewMovementRow {
  consumableId: string;
  kind: string;
  amount: number;
  place: string;
  jobId: string | null;
  deliveryNote: string | null;
  note: string | null;
  personId: string;
  at: Date;
}

export async function addMovement(tx: FirmTransaction, row: NewMovementRow): Promise<string> {
  const id = uuidv7();
  await tx.consumableMovement.create({ data: { firmId: tx.firmId, id, ...row } });
  return id;
}

/** The newest first. */
export async function listMovements(
  tx: FirmTransaction,
  consumableId: string,
  page: { after?: string; most: number },
) {
  return tx.consumableMovement.findMany({
    where: {
      firmId: tx.firmId,
      consumableId,
      ...(page.after ? { id: { lt: page.after } } : {}),
    },
    include: { person: { select: { name: true } }, job: { select: { reference: true } } },
    orderBy: { id: "desc" },
    take: page.most,
  });
}

export type MovementRow = Awaited<ReturnType<typeof listMovements>>[number];

/** What jobs have taken of each code, less what they brought back. */
export async function usedByJobs(
  tx: FirmTransaction,
  jobIds: string[],
): Promise<{ jobId: string; code: string; amount: number }[]> {
  return tx.$queryRaw`SELECT m.job_id AS "jobId", c.code, (-sum(m.amount))::float8 AS amount
    FROM consumable_movement m
    JOIN consumable c ON c.firm_id = m.firm_id AND c.id = m.consumable_id
    WHERE m.firm_id = ${tx.firmId}::uuid AND m.job_id = ANY (${jobIds}::uuid[])
    GROUP BY m.job_id, c.code`;
}
