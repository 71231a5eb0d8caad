import { z } from "zod";
import { inFirm } from "../../db/scope.ts";
import type { Feature } from "../../web/feature.ts";
import { problems } from "../../web/responses.ts";
import { signedIn } from "../../web/session.ts";
import { listCheckpoints } from "./checkpoint-store.ts";

const Checkpoint = z
  .object({
    number: z.number().int(),
    day: z.string(),
    jobs: z.number().int().describe("how many jobs have a ledger"),
    previous: z.string().describe("hash of the checkpoint before"),
    sha256: z.string().describe("hash of this one: keep it elsewhere"),
  })
  .meta({ id: "LedgerCheckpoint" });

export const ledgerCheckpointRoutes: Feature = async (app, { db }) => {
  app.get("/api/v1/ledger-checkpoints", {
    schema: {
      operationId: "listLedgerCheckpoints",
      summary: "List the daily checkpoints over all ledgers of the firm",
      description:
        "Each hashes the heads of all ledgers and names the one before. Whoever keeps one of " +
        "them elsewhere will see when what lies before it was rewritten.",
      tags: ["Ledger"],
      querystring: z.strictObject({
        limit: z.coerce.number().int().min(1).max(500).default(100),
        after: z.coerce.number().int().min(0).default(0).describe("number to start after"),
      }),
      response: {
        200: z.object({ items: z.array(Checkpoint), next: z.string().nullable() }),
        ...problems(401, 403, 422),
      },
    },
    handler: async (request) => {
      const { limit, after } = request.query;
      const rows = await inFirm(db, signedIn(request).firmId, (tx) =>
        listCheckpoints(tx, { after, most: limit + 1 }),
      );
      const items = rows
        .slice(0, limit)
        .map((row) => ({ ...row, day: row.day.toISOString().slice(0, 10) }));
      return { items, next: rows.length > limit ? String(items.at(-1)?.number) : null };
    },
  });
};
