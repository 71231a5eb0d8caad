import { uuidv7 } from "uuidv7";
import type { FirmTransaction } from "../../db/scope.ts";

const ENDPOINTS_MOST = 50;

export async function listEndpoints(tx: FirmTransaction) {
  return tx.webhookEndpoint.findMany({
    where: { firmId: tx.firmId },
    orderBy: { id: "asc" },
    take: ENDPOINTS_MOST,
  });
}

export async function countEndpoints(tx: FirmTransaction): Promise<number> {
  return tx.webhookEndpoint.count({ where: { firmId: tx.firmId } });
}

export async function findEndpoint(tx: FirmTransaction, id: string) {
  return tx.webhookEndpoint.findUnique({ where: { firmId_id: { firmId: tx.firmId, id } } });
}

export type EndpointRow = NonNullable<Awaited<ReturnType<typeof findEndpoint>>>;

export interface EndpointFields {
  id: string;
  url: string;
  kinds: string[];
  sealedSecret: Uint8Array<ArrayBuffer>;
  createdById: string;
}

export async function addEndpoint(tx: FirmTransaction, fields: EndpointFields) {
  return tx.webhookEndpoint.create({ data: { firmId: tx.firmId, ...fields } });
}

/** False when it has another version by now. */
export async function editEndpoint(
  tx: FirmTransaction,
  id: string,
  version: number,
  change: {
    url?: string;
    kinds?: string[];
    state?: string;
    failingSince?: Date | null;
    sealedSecret?: Uint8Array<ArrayBuffer>;
    sealedPrevious?: Uint8Array<ArrayBuffer> | null;
    previousUntil?: Date | null;
  },
): Promise<boolean> {
  const { count } = await tx.webhookEndpoint.updateMany({
    where: { firmId: tx.firmId, id, version },
    data: { ...change, version: { increment: 1 } },
  });
  return count === 1;
}

/** Endpoints that have failed since before `since` and are not disabled yet. */
export async function disableFailing(tx: FirmTransaction, since: Date): Promise<EndpointRow[]> {
  return tx.webhookEndpoint.updateManyAndReturn({
    where: { firmId: tx.firmId, state: "active", failingSince: { lt: since } },
    data: { state: "disabled", version: { increment: 1 } },
  });
}

export const newEndpointId = uuidv7;
