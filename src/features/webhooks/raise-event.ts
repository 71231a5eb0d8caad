// The one door for events: a delivery to each endpoint that asked for the kind is written in the
// transaction of what it tells of, so an event is told exactly of what was committed.
import { uuidv7 } from "uuidv7";
import type { FirmTransaction } from "../../db/scope.ts";
import { addDeliveries, endpointsFor } from "./delivery-store.ts";

export const EVENT_KINDS = [
  "firmware.release.kept",
  "firmware.release.withdrawn",
  "firmware.ring.opened",
  "firmware.ring.held",
  "firmware.ring.passed",
  "firmware.due",
  "firmware.updated",
  "job.closed",
  "visit.booked",
] as const;
export type EventKind = (typeof EVENT_KINDS)[number];

/** Told of to one endpoint alone, when somebody tries it. */
export const TRIAL_KIND = "webhook.trial";

export interface Event {
  kind: EventKind;
  /** Ids and technical facts; no names or addresses of people. */
  data: object;
}

export async function raiseEvent(
  tx: FirmTransaction,
  { kind, data }: Event,
  now: Date,
): Promise<void> {
  const endpointIds = await endpointsFor(tx, kind);
  if (endpointIds.length === 0) return;
  // Standard Webhooks 1.0, "Payload structure": type, timestamp, data.
  const body = JSON.stringify({ type: kind, timestamp: now.toISOString(), data });
  await addDeliveries(tx, endpointIds, { eventId: uuidv7(), kind, body }, now);
}
