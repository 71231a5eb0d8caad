import { createHash, timingSafeEqual } from "node:crypto";
import { z } from "zod";
import { notFound, Problem } from "../../errors.ts";
import type { Feature } from "../../web/feature.ts";
import { countRequests } from "../../web/metrics.ts";
import { problems } from "../../web/responses.ts";
import { addGauges } from "./gauges.ts";
import { readyRoutes } from "./ready-routes.ts";

/**
 * Only whoever has the token reads the figures, and without a token there are none: behind a proxy
 * on the same machine everybody comes from this machine, so an address would prove nothing.
 */
export const operationRoutes: Feature = async (app, context) => {
  const { db, config, now } = context;
  const registry = countRequests(app, db);
  const refresh = addGauges(registry, db, now);
  await readyRoutes(app, context);

  app.get("/metrics", {
    schema: {
      operationId: "metrics",
      summary: "Figures for a monitoring service",
      description: "In Prometheus' text format; takes METRICS_TOKEN as bearer.",
      tags: ["Service"],
      querystring: z.strictObject({}),
      response: {
        200: {
          description: "The figures",
          content: { "text/plain": { schema: z.string() } },
        },
        ...problems(401, 404, 422, 503),
      },
    },
    handler: async (request, reply) => {
      if (config.METRICS_TOKEN === undefined) throw notFound("address");
      if (!isSame(request.headers.authorization ?? "", `Bearer ${config.METRICS_TOKEN}`)) {
        throw new Problem("not-signed-in", "Send METRICS_TOKEN as bearer.");
      }
      await refresh();
      return reply
        .type(registry.contentType)
        .header("cache-control", "no-store")
        .serializer((text: unknown) => String(text))
        .send(await registry.metrics());
    },
  });
};

const isSame = (left: string, right: string): boolean =>
  timingSafeEqual(hashOf(left), hashOf(right));

const hashOf = (text: string): Buffer => createHash("sha256").update(text).digest();
