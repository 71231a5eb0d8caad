import { uuidv7 } from "uuidv7";
import type { FirmTransaction } from "../../db/scope.ts";

/** Endpoints in use that asked for events of the kind. */
export async function endpointsFor(tx: FirmTransaction, kind: string): Promise<string[]> {
  const rows = await tx.webhookEndpoint.findMany({
    where: { firmId: tx.firmId, state: "active", kinds: { has: kind } },
    select: { id: true },
  });
  return rows.map(({ id }) => id);
}

export async function addDeliveries(
  tx: FirmTransaction,
  endpointIds: readonly string[],
  event: { eventId: string; kind: string; body: string },
  now: Date,
): Promise<void> {
  await tx.webhookDelivery.createMany({
    data: endpointIds.map((endpointId) => ({
      ...{ firmId: tx.firmId, id: uuidv7(), endpointId, ...event },
      ...{ nextAt: now, createdAt: now },
    })),
  });
}

export interface DeliveryFilter {
  endpointId: string;
  state?: string;
  before?: string;
  most: number;
}

/** The latest first. */
export async function listDeliveries(tx: FirmTransaction, filter: DeliveryFilter) {
  const { endpointId, state, before, most } = filter;
  return tx.webhookDelivery.findMany({
    where: {
      ...{ firmId: tx.firmId, endpointId },
      ...(state ? { state } : {}),
      ...(before ? { id: { lt: before } } : {}),
    },
    orderBy: { id: "desc" },
    take: most,
  });
}

export type DeliveryRow = Awaited<ReturnType<typeof listDeliveries>>[number];

/** One delivery, or what failed of those that were raised from a time on and before another. */
export interface Again {
  deliveryId?: string | undefined;
  since?: Date | undefined;
  until?: Date | undefined;
}

/** Sends again what is named; how many were found. */
export async function sendAgain(
  tx: FirmTransaction,
  endpointId: string,
  { deliveryId, since, until }: Again,
  now: Date,
): Promise<number> {
  const { count } = await tx.webhookDelivery.updateMany({
    where: {
      ...{ firmId: tx.firmId, endpointId, state: { not: "waiting" } },
      ...(deliveryId === undefined
        ? { state: "failed", createdAt: { gte: since, lt: until } }
        : {}),
      ...(deliveryId === undefined ? {} : { id: deliveryId }),
    },
    data: { state: "waiting", attempts: 0, nextAt: now, lastError: null },
  });
  return count;
}

/** Takes the next delivery that is due, for as long as an attempt may last. */
export async function claimDelivery(
  tx: FirmTransaction,
  now: Date,
  leaseUntil: Date,
): Promise<DeliveryRow | undefined> {
  const [row] = await tx.$queryRaw<{ id: string }[]>`UPDATE webhook_delivery d
    SET attempts = attempts + 1, next_at = ${leaseUntil}::timestamptz
    WHERE d.firm_id = ${tx.firmId}::uuid AND d.id = (
      SELECT w.id FROM webhook_delivery w
      JOIN webhook_endpoint e ON e.firm_id = w.firm_id AND e.id = w.endpoint_id
        AND e.state = 'active'
      WHERE w.firm_id = ${tx.firmId}::uuid AND w.state = 'waiting'
        AND w.next_at <= ${now}::timestamptz
      ORDER BY w.next_at, w.id LIMIT 1 FOR UPDATE OF w SKIP LOCKED)
    RETURNING d.id`;
  if (!row) return undefined;
  return tx.webhookDelivery.findUniqueOrThrow({
    where: { firmId_id: { firmId: tx.firmId, id: row.id } },
  });
}

export async function markDelivered(
  tx: FirmTransaction,
  { id, endpointId }: DeliveryRow,
  status: number,
  now: Date,
): Promise<void> {
  await tx.webhookDelivery.updateMany({
    where: { firmId: tx.firmId, id },
    data: { state: "delivered", lastStatus: status, lastError: null, deliveredAt: now },
  });
  await tx.webhookEndpoint.updateMany({
    where: { firmId: tx.firmId, id: endpointId, failingSince: { not: null } },
    data: { failingSince: null },
  });
}

export async function markMissed(
  tx: FirmTransaction,
  { id, endpointId }: DeliveryRow,
  missed: { status: number | null; error: string; nextAt: Date | null },
  now: Date,
): Promise<void> {
  const { status, error, nextAt } = missed;
  await tx.webhookDelivery.updateMany({
    where: { firmId: tx.firmId, id },
    data: {
      ...{ lastStatus: status, lastError: error },
      ...(nextAt === null ? { state: "failed" } : { nextAt }),
    },
  });
  await tx.webhookEndpoint.updateMany({
    where: { firmId: tx.firmId, id: endpointId, failingSince: null },
    data: { failingSince: now },
  });
}
