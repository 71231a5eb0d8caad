import { Gauge, type Registry } from "prom-client";
import type { Database } from "../../db/client.ts";
import { type QueueFigures, readQueue, readStore, type StoreSums } from "./store.ts";

/** Sums over all firms are not worth making more often. */
const KEPT_MS = 60_000;

const QUEUE: Record<Exclude<keyof QueueFigures, "name">, string> = {
  waiting: "Scheduled work that waits, by queue",
  running: "Scheduled work under way, by queue",
  failed: "Scheduled work that failed, by queue",
  oldestS: "Seconds for which the oldest waiting work of a queue has been due",
};

const STORE: Record<keyof StoreSums, string> = {
  mailsWaiting: "Mails in the outbox that have not gone out yet",
  mailsFailed: "Mails that were given up",
  photoBytes: "Bytes of photos and documents",
};

const NAMES: Record<keyof typeof QUEUE | keyof StoreSums, string> = {
  waiting: "holdpoint_queue_waiting",
  running: "holdpoint_queue_running",
  failed: "holdpoint_queue_failed",
  oldestS: "holdpoint_queue_oldest_seconds",
  mailsWaiting: "holdpoint_mails_waiting",
  mailsFailed: "holdpoint_mails_failed",
  photoBytes: "holdpoint_photo_store_bytes",
};

const keysOf = <Key extends string>(table: Record<Key, string>): Key[] =>
  Object.keys(table) as Key[];

/** @returns what brings the figures up to date before they are read */
export function addGauges(registry: Registry, db: Database, now: () => Date): () => Promise<void> {
  const queue = keysOf(QUEUE).map((key) => ({
    key,
    gauge: new Gauge({
      ...{ name: NAMES[key], help: QUEUE[key], labelNames: ["queue"], registers: [registry] },
    }),
  }));
  const store = keysOf(STORE).map((key) => ({
    key,
    gauge: new Gauge({ name: NAMES[key], help: STORE[key], registers: [registry] }),
  }));
  let readAt = Number.NEGATIVE_INFINITY;
  return async () => {
    for (const figures of await readQueue(db)) {
      for (const { key, gauge } of queue) gauge.set({ queue: figures.name }, figures[key]);
    }
    if (now().getTime() - readAt < KEPT_MS) return;
    const figures = await readStore(db);
    for (const { key, gauge } of store) gauge.set(figures[key]);
    readAt = now().getTime();
  };
}
