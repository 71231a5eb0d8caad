import { z } from "zod";
import { LANGUAGES } from "../../language/languages.ts";
import type { Feature } from "../../web/feature.ts";
import { IdParams } from "../../web/fields.ts";
import { problems } from "../../web/responses.ts";
import { signedIn } from "../../web/session.ts";
import { PAPER_SIZES } from "./block.ts";
import { makeCommissioningRecord, makeHandoverPack } from "./make-paper.ts";
import { sendPdf } from "./send-pdf.ts";

const PaperQuery = z.strictObject({
  language: z.enum(LANGUAGES).optional().describe("the firm's unless said"),
  size: z.enum(PAPER_SIZES).optional().describe("letter for a firm on US customary units, else a4"),
});

const PDF_RESPONSE = {
  200: {
    description: "PDF/A-2a, tagged",
    content: { "application/pdf": { schema: z.string().meta({ format: "binary" }) } },
  },
  ...problems(401, 403, 404, 422, 503),
};

export const paperRoutes: Feature = async (app, context) => {
  app.get("/api/v1/jobs/:id/commissioning-record.pdf", {
    schema: {
      operationId: "readCommissioningRecord",
      summary: "Read the commissioning record of a job as PDF",
      description:
        "Everything that was checked, with what, by whom, and what came of it, as the record " +
        "stood after its last change: the same record gives the same bytes. Of a job that is not " +
        "closed it is marked as a draft on every page.",
      tags: ["Evidence"],
      params: IdParams,
      querystring: PaperQuery,
      response: PDF_RESPONSE,
    },
    handler: async (request, reply) => {
      const { firmId } = signedIn(request);
      const wanted = { firmId, jobId: request.params.id, ...request.query };
      return sendPdf(reply, await makeCommissioningRecord(context, wanted));
    },
  });

  app.get("/api/v1/jobs/:id/handover-pack.pdf", {
    schema: {
      operationId: "readHandoverPack",
      summary: "Read the handover pack of a job as PDF",
      description:
        "What the customer keeps: what to do in an emergency, the units, what was checked, open " +
        "snags, papers filed with the job, signatures. A draft until the job is closed.",
      tags: ["Evidence"],
      params: IdParams,
      querystring: PaperQuery,
      response: PDF_RESPONSE,
    },
    handler: async (request, reply) => {
      const { firmId } = signedIn(request);
      const wanted = { firmId, jobId: request.params.id, ...request.query };
      return sendPdf(reply, await makeHandoverPack(context, wanted));
    },
  });
};
