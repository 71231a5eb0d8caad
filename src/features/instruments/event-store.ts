import { uuidv7 } from "uuidv7";
import type { FirmTransaction } from "../../db/scope.ts";

export interface EventFields {
  kind: string;
  at: string;
  cycles?: number;
  note?: string;
}

export async function addEvent(
  tx: FirmTransaction,
  instrumentId: string,
  { at, ...fields }: EventFields,
  personId: string,
) {
  const own = { firmId: tx.firmId, id: uuidv7(), instrumentId, personId };
  return tx.instrumentEvent.create({
    data: { ...own, ...fields, at: new Date(at), atText: at },
  });
}

export interface EventFilter {
  kind?: string;
  after?: string;
  most: number;
}

/** In the order in which they were entered. */
export async function listEvents(tx: FirmTransaction, instrumentId: string, filter: EventFilter) {
  const { kind, after } = filter;
  return tx.instrumentEvent.findMany({
    where: {
      firmId: tx.firmId,
      instrumentId,
      ...(kind ? { kind } : {}),
      ...(after ? { id: { gt: after } } : {}),
    },
    orderBy: { id: "asc" },
    take: filter.most,
  });
}

export type EventRow = Awaited<ReturnType<typeof listEvents>>[number];
