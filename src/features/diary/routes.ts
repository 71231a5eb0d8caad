import { inFirm } from "../../db/scope.ts";
import { daysBetween } from "../../domain/dates/plain-date.ts";
import { invalid } from "../../errors.ts";
import type { Feature } from "../../web/feature.ts";
import { IdParams } from "../../web/fields.ts";
import { afterId, toPage } from "../../web/paging.ts";
import { problems } from "../../web/responses.ts";
import { signedIn } from "../../web/session.ts";
import { suggestFirstFree } from "./first-free.ts";
import { listUnplaced } from "./list-unplaced.ts";
import { DIARY_DAYS_MOST, readDiary } from "./read-diary.ts";
import {
  Diary,
  DiaryQuery,
  FirstFree,
  FirstFreeQuery,
  UnplacedJobPage,
  UnplacedQuery,
} from "./schemas.ts";
import { isToldReasons } from "./told-reasons.ts";

const TAGS = ["Diary"];

export const diaryRoutes: Feature = async (app, { db, now }) => {
  app.get("/api/v1/diary", {
    schema: {
      operationId: "readDiary",
      summary: "Read some days of the diary, a row a crew or a person",
      tags: TAGS,
      querystring: DiaryQuery,
      response: { 200: Diary, ...problems(401, 403, 422) },
    },
    handler: async (request) => {
      const { firmId, roles } = signedIn(request);
      const { from, to } = request.query;
      if (daysBetween(from, to) >= DIARY_DAYS_MOST) {
        throw invalid("/query/to", `Ask for at most ${DIARY_DAYS_MOST} days at a time.`);
      }
      const asked = { ...request.query, withReasons: isToldReasons(roles) };
      return inFirm(db, firmId, (tx) => readDiary(tx, asked, now()));
    },
  });

  app.get("/api/v1/diary/unplaced", {
    schema: {
      operationId: "listUnplacedJobs",
      summary: "List open jobs without a visit to come, with how long each is likely to take",
      tags: TAGS,
      querystring: UnplacedQuery,
      response: { 200: UnplacedJobPage, ...problems(401, 403, 422) },
    },
    handler: async (request, reply) => {
      const { limit, cursor, kind } = request.query;
      const filter = { kind, after: afterId(cursor), most: limit + 1, now: now() };
      const rows = await inFirm(db, signedIn(request).firmId, (tx) => listUnplaced(tx, filter));
      return toPage(request, reply, rows, limit, (row) => row.id);
    },
  });

  app.get("/api/v1/jobs/:id/first-free", {
    schema: {
      operationId: "suggestFirstFree",
      summary: "Find the first places in the diary where a visit of the job fits",
      description:
        "Each lies within the hours of all the crew, with the drives before and after it, by " +
        "people who are there and qualified, with instruments in calibration. It is booked with " +
        "`POST /api/v1/jobs/:id/visits`.",
      tags: TAGS,
      params: IdParams,
      querystring: FirstFreeQuery,
      response: { 200: FirstFree, ...problems(401, 403, 404, 409, 422) },
    },
    handler: async (request) =>
      inFirm(db, signedIn(request).firmId, (tx) =>
        suggestFirstFree(tx, request.params.id, request.query, now()),
      ),
  });
};
