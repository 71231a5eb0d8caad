import { z } from "zod";
import { inFirm } from "../../db/scope.ts";
import { notFound } from "../../errors.ts";
import type { Feature } from "../../web/feature.ts";
import { dateTime, IdParams } from "../../web/fields.ts";
import { problems } from "../../web/responses.ts";
import { signedIn } from "../../web/session.ts";
import { OUTCOMES } from "../answers/schemas.ts";
import { requireJob } from "../jobs/require-job.ts";
import { listBrokenChains } from "./difference-store.ts";
import { type Difference, differencesOf } from "./differences.ts";

const DifferentAnswer = z.object({
  id: z.guid(),
  outcome: z.enum(OUTCOMES),
  sentence: z.string(),
  takenAt: dateTime(),
  receiptOrder: z.number().int(),
  personId: z.guid(),
  personName: z.string(),
  deviceId: z.guid().nullable().describe("null: it did not come from a tablet's outbox"),
  counts: z.boolean().describe("whether it is the last answer taken, which counts"),
});

const DifferenceSchema = z
  .object({
    itemId: z.string(),
    itemTitle: z.string(),
    subject: z.string(),
    subjectLabel: z.string().describe("serial number of the unit, or the subject itself"),
    same: z.boolean().describe("whether all gave the same value"),
    sentence: z.string(),
    answers: z.array(DifferentAnswer),
  })
  .meta({ id: "Difference" });

const BrokenChain = z.object({
  opId: z.guid(),
  deviceId: z.guid(),
  deviceSeq: z.number().int(),
  receivedAt: dateTime(),
});

export const differenceRoutes: Feature = async (app, { db }) => {
  app.get("/api/v1/jobs/:id/differences", {
    schema: {
      operationId: "listDifferences",
      summary: "See where two sources answered the same without knowing of each other",
      description:
        "Both answers are kept and the last one taken counts, as for any attempts. Operations " +
        "that do not follow from the one before on their tablet are listed, too.",
      tags: ["Tablet"],
      params: IdParams,
      response: {
        200: z.object({
          items: z.array(DifferenceSchema),
          brokenChains: z.array(BrokenChain),
        }),
        ...problems(401, 403, 404, 422),
      },
    },
    handler: async (request) => {
      const { id } = request.params;
      return inFirm(db, signedIn(request).firmId, async (tx) => {
        await requireJob(tx, id);
        const items = await differencesOf(tx, id);
        if (!items) throw notFound("job");
        const broken = await listBrokenChains(tx, id);
        return { items: items.map(shown), brokenChains: broken.map(shownChain) };
      });
    },
  });
};

type Shown = z.infer<typeof DifferenceSchema>;

const shown = (difference: Difference): Shown => ({
  ...difference,
  answers: difference.answers as Shown["answers"],
});

const shownChain = ({
  receivedAt,
  ...row
}: Awaited<ReturnType<typeof listBrokenChains>>[number]) => ({
  ...row,
  receivedAt: receivedAt.toISOString(),
});
