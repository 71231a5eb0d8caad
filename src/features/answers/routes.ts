import { z } from "zod";
import { inFirm } from "../../db/scope.ts";
import type { Feature } from "../../web/feature.ts";
import { IdParams, typedLine } from "../../web/fields.ts";
import { pageOf } from "../../web/paging.ts";
import { problems } from "../../web/responses.ts";
import { signedIn } from "../../web/session.ts";
import { requireJob } from "../jobs/require-job.ts";
import { AnswerBatch, AnswerRecord, KeptAnswers } from "./schemas.ts";
import { listAnswers } from "./store.ts";
import { submitAnswers } from "./submit-answers.ts";

const TAGS = ["Answers"];

const AnswerQuery = z.strictObject({
  limit: z.coerce.number().int().min(1).max(500).default(100),
  after: z.coerce
    .number()
    .int()
    .min(0)
    .default(0)
    .describe("receipt order after which the page starts"),
  itemId: typedLine(48).optional(),
  subject: typedLine(64).optional(),
});

export const answerRoutes: Feature = async (app, { db, now }) => {
  app.post("/api/v1/jobs/:id/answers", {
    schema: {
      operationId: "submitAnswers",
      summary: "Submit one answer or a batch",
      description:
        "Each answer carries its own id, so sending it again is harmless: the stored verdict comes back. " +
        "A batch is kept whole or not at all. A failing answer is kept too, with its verdict.",
      tags: TAGS,
      params: IdParams,
      body: AnswerBatch,
      response: { 201: KeptAnswers, ...problems(400, 401, 403, 404, 409, 413, 422) },
    },
    handler: async (request, reply) => {
      const { answers } = request.body;
      const kept = await submitAnswers(db, signedIn(request), request.params.id, answers, now());
      return reply
        .code(201)
        .send({ answers: kept as unknown as z.infer<typeof KeptAnswers>["answers"] });
    },
  });

  app.get("/api/v1/jobs/:id/answers", {
    schema: {
      operationId: "listAnswers",
      summary: "List a job's answers in the order they were received",
      tags: TAGS,
      params: IdParams,
      querystring: AnswerQuery,
      response: { 200: pageOf(AnswerRecord), ...problems(401, 403, 404, 422) },
    },
    handler: async (request, reply) => {
      const { limit, ...filter } = request.query;
      const rows = await inFirm(db, signedIn(request).firmId, async (tx) => {
        await requireJob(tx, request.params.id);
        return listAnswers(tx, request.params.id, { ...filter, most: limit + 1 });
      });
      const items = rows.slice(0, limit).map(shown);
      const last = rows.length > limit ? items.at(-1) : undefined;
      if (last) {
        const url = new URL(request.url, "http://here");
        url.searchParams.set("after", String(last.receiptOrder));
        reply.header("link", `<${url.pathname}${url.search}>; rel="next"`);
      }
      return { items, next: last ? String(last.receiptOrder) : null };
    },
  });
};

type Row = Awaited<ReturnType<typeof listAnswers>>[number];

const shown = (row: Row) => ({
  id: row.id,
  itemId: row.itemId,
  subject: row.subject,
  value: row.value,
  instrumentId: row.instrumentId,
  note: row.note,
  photos: row.photos,
  takenAt: row.takenAtText,
  receivedAt: row.receivedAt.toISOString(),
  personId: row.personId,
  receiptOrder: row.receiptOrder,
  verdict: row.verdict as z.infer<typeof AnswerRecord>["verdict"],
});
