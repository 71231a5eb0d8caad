import { z } from "zod";
import type { Feature } from "../../web/feature.ts";
import { IdParams } from "../../web/fields.ts";
import { problems } from "../../web/responses.ts";
import { signedIn } from "../../web/session.ts";
import { exportBag } from "./export-bag.ts";

export const evidenceRoutes: Feature = async (app, context) => {
  app.get("/api/v1/jobs/:id/evidence-bag", {
    schema: {
      operationId: "exportEvidenceBag",
      summary: "Take away the evidence of a job as one file that others can check",
      description:
        "A ZIP file with a bag after RFC 8493: records, readings, photos and ledger, manifests, " +
        "and a CMS signature. Its README.txt holds the commands that check it. The export is " +
        "written on the job's ledger.",
      tags: ["Evidence"],
      params: IdParams,
      response: {
        200: {
          description: "The bag",
          content: { "application/zip": { schema: z.string().meta({ format: "binary" }) } },
        },
        ...problems(401, 403, 404, 409, 422),
      },
    },
    handler: async (request, reply) => {
      const { firmId, personId } = signedIn(request);
      const { fileName, bag } = await exportBag(context, {
        firmId,
        personId,
        jobId: request.params.id,
        onUnstamped: (problem) => request.log.warn({ problem }, "evidence left unstamped"),
      });
      return (
        reply
          .type("application/zip")
          .header("content-disposition", `attachment; filename="${fileName}"`)
          .header("cache-control", "no-store")
          // A stream goes out as it is, past the schema.
          .send(bag as never)
      );
    },
  });
};
