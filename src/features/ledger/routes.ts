import { z } from "zod";
import { inFirm } from "../../db/scope.ts";
import type { Feature } from "../../web/feature.ts";
import { IdParams } from "../../web/fields.ts";
import { problems } from "../../web/responses.ts";
import { signedIn } from "../../web/session.ts";
import { requireJob } from "../jobs/require-job.ts";
import { ledgerCheckpointRoutes } from "./checkpoint-routes.ts";
import { listLedger } from "./store.ts";

const LedgerEntry = z
  .object({
    seq: z.number().int(),
    text: z.string().describe("canonical JSON (RFC 8785) of the entry, as hashed"),
    sha256: z.string(),
  })
  .meta({ id: "LedgerEntry" });

export const ledgerRoutes: Feature = async (app, context) => {
  const { db } = context;
  await ledgerCheckpointRoutes(app, context);
  app.get("/api/v1/jobs/:id/ledger", {
    schema: {
      operationId: "readLedger",
      summary: "Read a job's ledger from its first entry on",
      description:
        "Each text holds the SHA-256 of the one before; the last one is the head of the chain.",
      tags: ["Ledger"],
      params: IdParams,
      querystring: z.strictObject({
        limit: z.coerce.number().int().min(1).max(500).default(100),
        after: z.coerce
          .number()
          .int()
          .min(0)
          .default(0)
          .describe("seq after which the page starts"),
      }),
      response: {
        200: z.object({ items: z.array(LedgerEntry), next: z.string().nullable() }),
        ...problems(401, 403, 404, 422),
      },
    },
    handler: async (request) => {
      const { limit, after } = request.query;
      const rows = await inFirm(db, signedIn(request).firmId, async (tx) => {
        await requireJob(tx, request.params.id);
        return listLedger(tx, request.params.id, { after, most: limit + 1 });
      });
      const items = rows.slice(0, limit);
      return { items, next: rows.length > limit ? String(items.at(-1)?.seq) : null };
    },
  });
};
