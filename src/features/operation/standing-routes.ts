import { z } from "zod";
import { RepeatedProblem } from "../../errors.ts";
import type { App } from "../../web/feature.ts";
import { problems } from "../../web/responses.ts";
import type { Desk } from "./desk.ts";
import { CHECKS } from "./readiness.ts";
import type { Known } from "./standing.ts";

const VERDICT = { mark: z.enum(["good", "watch", "bad"]), advice: z.string().nullable() };
const count = z.number();

const Standing = z.object({
  ready: z.object({
    isReady: z.boolean(),
    reasons: z.array(z.object({ check: z.enum(CHECKS), detail: z.string() })),
  }),
  versions: z.object({
    ...{ service: z.string(), node: z.string(), postgresql: z.string() },
    ...{ schemaExpected: z.string().nullable(), schemaFound: z.string().nullable() },
    ...{ pending: z.array(z.string()), uptimeS: count },
  }),
  queues: z.array(
    z.object({
      ...{ name: z.string(), waiting: count, running: count, failed: count, oldestS: count },
      ...VERDICT,
    }),
  ),
  mail: z.object({
    ...{ waiting: count, failed: count, lastSentAt: z.string().nullable() },
    ...{ isPosted: z.boolean(), ...VERDICT },
  }),
  storage: z.object({
    database: z.object({
      bytes: count,
      tables: z.array(z.object({ name: z.string(), bytes: count })),
    }),
    ...{ photoBytes: count, hasBucket: z.boolean() },
    disk: z.object({ bytes: count.nullable(), freeBytes: count.nullable(), ...VERDICT }),
    backup: z.object({ lastAt: z.string().nullable(), ...VERDICT }),
  }),
  connections: z.array(
    z.object({
      ...{ name: z.string(), inUse: count, idle: count, waiting: count, limit: count },
      ...VERDICT,
    }),
  ),
  replica: z.object({ isSet: z.boolean(), isFit: z.boolean().nullable() }),
});

export const RETRY_AFTER_S = 5;

export function standingRoutes(app: App, desk: Desk): void {
  app.get("/api/v1/operation", {
    config: { ignoresSession: true },
    schema: {
      operationId: "readOperation",
      summary: "How the service stands, for whoever runs it",
      description:
        "Over all firms, and no firm's own words; takes METRICS_TOKEN as bearer. While the " +
        "database is away, the refusal (503) bears what is known without it.",
      tags: ["Service"],
      querystring: z.strictObject({}),
      response: {
        200: Standing.describe("How it stands"),
        ...problems(401, 404, 422, 429, 503),
      },
    },
    handler: async (request, reply) => {
      desk.guard.requireBearer(request);
      reply.header("cache-control", "no-store");
      const { known, inside } = await desk.standing();
      if (!inside) throw withoutDatabase(known);
      return {
        ...known,
        ...inside,
        versions: { ...known.versions, ...inside.versions },
        storage: { ...known.storage, ...inside.storage },
      };
    },
  });
}

function withoutDatabase(known: Known): RepeatedProblem {
  const { reasons } = known.ready;
  const detail =
    reasons.map((reason) => reason.detail).join(" ") ||
    "What the database knows of the service cannot be read; the log says why.";
  return new RepeatedProblem("busy", detail, { ...known, retryAfterS: RETRY_AFTER_S });
}
