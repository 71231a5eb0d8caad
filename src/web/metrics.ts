// What a monitoring service reads (Prometheus' text format). Labels are routes and queues as the
// program names them, never a firm's or a customer's own words, so their number is bounded too.
import { collectDefaultMetrics, Gauge, Histogram, Registry } from "prom-client";
import type { Database } from "../db/client.ts";
import type { App } from "./feature.ts";

const SECONDS = [0.005, 0.01, 0.025, 0.05, 0.1, 0.25, 0.5, 1, 2.5, 5, 10];

/** Counts every request from here on. */
export function countRequests(app: App, db: Database): Registry {
  const registry = new Registry();
  collectDefaultMetrics({ register: registry });
  const durations = new Histogram({
    name: "holdpoint_request_duration_seconds",
    help: "Requests by method, route and status, and how long they took",
    labelNames: ["method", "route", "status"],
    buckets: SECONDS,
    registers: [registry],
  });
  app.addHook("onResponse", async (request, reply) => {
    const route = request.routeOptions.url ?? "none";
    const labels = { method: request.method, route, status: String(reply.statusCode) };
    durations.observe(labels, reply.elapsedTime / 1000);
  });
  countConnections(registry, db);
  // An observer of the process keeps the registry for good; what is in it may go with the app.
  app.addHook("onClose", async () => registry.clear());
  return registry;
}

function countConnections(registry: Registry, db: Database): void {
  new Gauge({
    name: "holdpoint_database_connections",
    help: "Connections to the database by pool, and requests that wait for one",
    labelNames: ["pool", "state"],
    registers: [registry],
    collect() {
      for (const [pool, { totalCount, idleCount, waitingCount }] of Object.entries(db.pools)) {
        this.set({ pool, state: "in use" }, totalCount - idleCount);
        this.set({ pool, state: "idle" }, idleCount);
        this.set({ pool, state: "waiting" }, waitingCount);
      }
    },
  });
}
