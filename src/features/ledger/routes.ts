import { z } from "zod";
import { inFirm } from "../../db/scope.ts";
import type { Feature } from "../../web/feature.ts";
import { IdParams } from "../../web/fields.ts";
import { problems } from "../../web/responses.ts";
import { signedIn } from "../../web/session.ts";
import { requireJob } from "../jobs/require-job.ts";
import { ledgerCheckpointRoutes } from "./checkpoint-routes.ts";
import { listLedger } from "./store.ts";
import { textsOf } from "./texts-store.ts";

const LedgerEntry = z
  .object({
    seq: z.number().int(),
    text: z.string().describe("canonical JSON (RFC 8785) of the entry, as hashed"),
    sha256: z.string(),
    texts: z
      .array(
        z.object({
          path: z.string().describe("JSON pointer in the entry's body"),
          salt: z.string().nullable(),
          text: z.string().nullable(),
        }),
      )
      .describe(
        'what people wrote, where the body holds {"salted": hash}: the SHA-256 of salt followed ' +
          "by text; both null once they were erased",
      ),
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
      const { id } = request.params;
      return inFirm(db, signedIn(request).firmId, async (tx) => {
        await requireJob(tx, id);
        const rows = await listLedger(tx, id, { after, most: limit + 1 });
        const page = rows.slice(0, limit);
        const seqs = page.map(({ seq }) => seq);
        const kept = await textsOf(tx, id, seqs);
        const textsAt = (at: number) =>
          kept.filter(({ seq }) => seq === at).map(({ seq: _seq, ...text }) => text);
        const items = page.map((entry) => ({ ...entry, texts: textsAt(entry.seq) }));
        return { items, next: rows.length > limit ? String(items.at(-1)?.seq) : null };
      });
    },
  });
};
