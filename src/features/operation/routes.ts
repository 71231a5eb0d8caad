import { z } from "zod";
import type { Feature } from "../../web/feature.ts";
import { countRequests } from "../../web/metrics.ts";
import { problems } from "../../web/responses.ts";
import { openDesk } from "./desk.ts";
import { addGauges } from "./gauges.ts";
import { operationPages } from "./pages.ts";
import { readyRoutes } from "./ready-routes.ts";
import { standingRoutes } from "./standing-routes.ts";

export const operationRoutes: Feature = async (app, context) => {
  const { db, now } = context;
  const registry = countRequests(app, db);
  const refresh = addGauges(registry, db, now);
  const desk = openDesk(app, context);
  readyRoutes(app, desk);
  standingRoutes(app, desk);
  operationPages(app, context, desk);

  app.get("/metrics", {
    config: { ignoresSession: true },
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
        ...problems(401, 404, 422, 429, 503),
      },
    },
    handler: async (request, reply) => {
      desk.guard.requireBearer(request);
      await refresh();
      return reply
        .type(registry.contentType)
        .header("cache-control", "no-store")
        .serializer((text: unknown) => String(text))
        .send(await registry.metrics());
    },
  });
};
