// The long parts of a job's record on pages of their own: every reading, every picture, the
// history.
import { z } from "zod";
import { type FirmTransaction, inFirm } from "../../db/scope.ts";
import { notFound } from "../../errors.ts";
import { say } from "../../language/say.ts";
import type { Feature } from "../../web/feature.ts";
import { IdParams } from "../../web/fields.ts";
import { listView } from "../../web/list-view.ts";
import { sendPage } from "../../web/page.ts";
import { signedIn } from "../../web/session.ts";
import { asked } from "../../web/sorted-list.ts";
import { evaluateJob } from "../close-out/evaluate.ts";
import { readJob } from "../close-out/store.ts";
import { readFirm } from "../firms/store.ts";
import { doubtsOf } from "../job-record/doubts.ts";
import { PhotoParams } from "../photos/schemas.ts";
import { attemptOf } from "./attempts.ts";
import { historyLine, peopleIn } from "./history-words.ts";
import { namesOf } from "./names-store.ts";
import { shownPhoto } from "./photo-captions.ts";
import { lastEntries, lastPhotos, photoBetween } from "./store.ts";

const A_PAGE = 50;
const PHOTOS_A_PAGE = 200;
const number = asked(z.coerce.number().int().min(0).max(1_000_000_000));
const ReadingQuery = z.object({
  itemId: asked(z.string().max(48)),
  subject: z.string().max(64).optional(),
  cursor: number,
});
const HistoryQuery = z.object({ cursor: number });

export const jobRecordPages: Feature = async (app, { db, now }) => {
  const readRecord = async (tx: FirmTransaction, id: string) => {
    const evaluated = await evaluateJob(tx, id, now(), { lock: false });
    const job = evaluated && (await readJob(tx, id));
    if (!evaluated || !job) throw notFound("job");
    return { ...evaluated, job };
  };

  app.get("/jobs/:id/readings", {
    schema: {
      operationId: "jobReadingsPage",
      hide: true,
      params: IdParams,
      querystring: ReadingQuery,
    },
    handler: async (request, reply) => {
      const { id } = request.params;
      const { itemId, subject, cursor } = request.query;
      const data = await inFirm(db, signedIn(request).firmId, async (tx) => {
        const { record, plan, job } = await readRecord(tx, id);
        const all = record.answers
          .filter((answer) => itemId === undefined || answer.itemId === itemId)
          .filter((answer) => subject === undefined || answer.subject === subject)
          .filter(({ receiptOrder }) => cursor === undefined || receiptOrder < cursor)
          .toReversed();
        const answers = all.slice(0, A_PAGE);
        const { unitSystem } = await readFirm(tx);
        const names = await namesOf(
          tx,
          answers.map(({ personId }) => personId),
        );
        const system = unitSystem === "us" ? ("us" as const) : ("metric" as const);
        const { language } = request;
        const shown = { language, unitSystem: system, names, doubts: doubtsOf(record) };
        const rows = answers.map((answer) => ({
          ...attemptOf(answer, record, shown),
          item: plan.byId.get(answer.itemId)?.item.title ?? answer.itemId,
          unit: record.units.find((unit) => unit.id === answer.subject)?.serial,
        }));
        return { job, rows, next: all.length > A_PAGE ? answers.at(-1)?.receiptOrder : undefined };
      });
      return sendPage(request, reply, "job-readings", {
        title: say(request.language, "job.readings"),
        styles: ["job"],
        ...data,
        isFiltered: itemId !== undefined,
        list: listView({
          ...{ path: `/jobs/${id}/readings`, filters: { itemId, subject } },
          ...{ next: data.next === undefined ? null : String(data.next) },
          cursor: cursor === undefined ? undefined : String(cursor),
        }),
      });
    },
  });

  app.get("/jobs/:id/history", {
    schema: {
      operationId: "jobHistoryPage",
      hide: true,
      params: IdParams,
      querystring: HistoryQuery,
    },
    handler: async (request, reply) => {
      const { id } = request.params;
      const { cursor } = request.query;
      const data = await inFirm(db, signedIn(request).firmId, async (tx) => {
        const { record, plan, job } = await readRecord(tx, id);
        const page = { most: A_PAGE + 1, ...(cursor === undefined ? {} : { before: cursor }) };
        const entries = await lastEntries(tx, id, page);
        const names = await namesOf(tx, peopleIn(entries));
        const words = { names, plan, record, language: request.language };
        const rows = entries.slice(0, A_PAGE).map((entry) => historyLine(entry, words));
        return { job, rows, next: entries.length > A_PAGE ? rows.at(-1)?.seq : undefined };
      });
      return sendPage(request, reply, "job-history", {
        title: say(request.language, "job.history"),
        styles: ["job"],
        ...data,
        list: listView({
          ...{ path: `/jobs/${id}/history`, filters: {} },
          ...{ next: data.next === undefined ? null : String(data.next) },
          cursor: cursor === undefined ? undefined : String(cursor),
        }),
      });
    },
  });

  app.get("/jobs/:id/photos", {
    schema: { operationId: "jobPhotosPage", hide: true, params: IdParams },
    handler: async (request, reply) => {
      const { id } = request.params;
      const data = await inFirm(db, signedIn(request).firmId, async (tx) => {
        const { record, plan, job } = await readRecord(tx, id);
        const { rows, count } = await lastPhotos(tx, id, PHOTOS_A_PAGE);
        const photos = rows.map((row) => shownPhoto(row, plan, record, request.language));
        return { job, photos, photoCount: count };
      });
      const title = say(request.language, "job.photos");
      const files = { styles: ["job"], scripts: ["photo-viewer"] };
      return sendPage(request, reply, "job-photos", { title, ...files, ...data });
    },
  });

  app.get("/jobs/:id/photos/:sha256", {
    schema: { operationId: "jobPhotoPage", hide: true, params: PhotoParams },
    handler: async (request, reply) => {
      const { id, sha256 } = request.params;
      const data = await inFirm(db, signedIn(request).firmId, async (tx) => {
        const { record, plan, job } = await readRecord(tx, id);
        const found = await photoBetween(tx, id, sha256);
        if (!found) throw notFound("photo");
        const { newer, older } = found;
        return {
          job,
          newer,
          older,
          photo: shownPhoto(found.photo, plan, record, request.language),
        };
      });
      const title = data.photo.caption;
      return sendPage(request, reply, "job-photo", { title, styles: ["job"], ...data });
    },
  });
};
