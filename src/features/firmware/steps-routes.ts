import { z } from "zod";
import { inFirm } from "../../db/scope.ts";
import { notFound } from "../../errors.ts";
import type { Feature } from "../../web/feature.ts";
import { IdParams } from "../../web/fields.ts";
import { problems } from "../../web/responses.ts";
import { signedIn } from "../../web/session.ts";
import { findSite } from "../sites/store.ts";
import { siteSteps } from "./site-steps.ts";

const SiteSteps = z
  .object({
    state: z
      .enum(["in-order", "no-order", "unclear"])
      .describe("no-order: no sequence keeps every combination compatible; unclear: never guessed"),
    sentence: z.string(),
    steps: z.array(
      z.object({ unitId: z.guid(), label: z.string(), from: z.string(), to: z.string() }),
    ),
    unread: z.array(z.string()).describe("serial numbers of units whose level is to be read first"),
    caution: z.string(),
  })
  .meta({ id: "FirmwareSteps" });

const CAUTION =
  "The maker's own instructions come first: isolate where they say so. Local codes and licensed " +
  "practice prevail.";

export const firmwareStepRoutes: Feature = async (app, { db }) => {
  app.get("/api/v1/sites/:id/firmware-steps", {
    schema: {
      operationId: "readFirmwareSteps",
      summary: "Read the order in which a site's units are updated safely, or why there is none",
      tags: ["Firmware"],
      params: IdParams,
      response: { 200: SiteSteps, ...problems(401, 403, 404, 422) },
    },
    handler: async (request) => {
      const { id } = request.params;
      const { order, unread } = await inFirm(db, signedIn(request).firmId, async (tx) => {
        if (!(await findSite(tx, id))) throw notFound("site");
        return siteSteps(tx, id);
      });
      return {
        state: order.state,
        sentence: order.sentence,
        steps: order.state === "in-order" ? order.steps : [],
        unread,
        caution: CAUTION,
      };
    },
  });
};
