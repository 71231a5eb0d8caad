import { z } from "zod";
import { inFirm } from "../../db/scope.ts";
import { notFound } from "../../errors.ts";
import type { Feature } from "../../web/feature.ts";
import { IdParams } from "../../web/fields.ts";
import { afterId, toPage } from "../../web/paging.ts";
import { problems } from "../../web/responses.ts";
import { signedIn } from "../../web/session.ts";
import { requireJob } from "../jobs/require-job.ts";
import { openKept } from "./open-kept.ts";
import { publishedCopy } from "./picture.ts";
import { receivePhoto } from "./receive-photo.ts";
import {
  PHOTO_BYTES_MOST,
  Photo,
  PhotoPage,
  PhotoParams,
  PhotoPlace,
  PhotoQuery,
  PhotoSize,
} from "./schemas.ts";
import { findPhoto, listPhotos } from "./store.ts";

const TAGS = ["Photos"];
const IMAGE_TYPES = ["image/jpeg", "image/png", "image/webp"];

export const photoRoutes: Feature = async (app, { db, config, now }) => {
  app.addContentTypeParser(
    IMAGE_TYPES,
    { parseAs: "buffer", bodyLimit: PHOTO_BYTES_MOST },
    (_request, body, done) => done(null, body),
  );

  app.put("/api/v1/jobs/:id/photos/:sha256", {
    bodyLimit: PHOTO_BYTES_MOST,
    schema: {
      operationId: "putPhoto",
      summary: "Send a photo under its SHA-256",
      description:
        "The body is the file itself: JPEG, PNG or WebP, at most 15 MB. Sending it again is harmless.",
      tags: TAGS,
      consumes: IMAGE_TYPES,
      params: PhotoParams,
      querystring: PhotoPlace,
      body: z.instanceof(Buffer).meta({ type: "string", format: "binary" }),
      response: {
        200: Photo.describe("It was there already"),
        201: Photo,
        ...problems(400, 401, 403, 404, 409, 413, 415, 422, 503),
      },
    },
    handler: async (request, reply) => {
      const { id: jobId, sha256 } = request.params;
      const incoming = { jobId, sha256, bytes: request.body, ...request.query };
      const { photo, added } = await receivePhoto(
        ...([db, config, signedIn(request), incoming, now()] as const),
      );
      return reply.code(added ? 201 : 200).send(shown(photo));
    },
  });

  app.get("/api/v1/jobs/:id/photos", {
    schema: {
      operationId: "listPhotos",
      summary: "List a job's photos",
      tags: TAGS,
      params: IdParams,
      querystring: PhotoQuery,
      response: { 200: PhotoPage, ...problems(401, 403, 404, 422) },
    },
    handler: async (request, reply) => {
      const { limit, cursor } = request.query;
      const page = { after: afterId(cursor), most: limit + 1 };
      const rows = await inFirm(db, signedIn(request).firmId, async (tx) => {
        await requireJob(tx, request.params.id);
        return listPhotos(tx, request.params.id, page);
      });
      return toPage(request, reply, rows.map(shown), limit, (row) => row.id);
    },
  });

  app.get("/api/v1/jobs/:id/photos/:sha256", {
    schema: {
      operationId: "readPhoto",
      summary: "See a photo: a copy without its metadata",
      tags: TAGS,
      params: PhotoParams,
      querystring: PhotoSize,
      response: {
        200: {
          description: "The picture",
          content: { "image/jpeg": { schema: z.string().meta({ format: "binary" }) } },
        },
        ...problems(401, 403, 404, 409, 422, 503),
      },
    },
    handler: async (request, reply) => {
      const { firmId } = signedIn(request);
      const { id, sha256 } = request.params;
      const photo = await inFirm(db, firmId, (tx) => findPhoto(tx, id, sha256));
      if (!photo) throw notFound("photo");
      const open = () => openKept(config, { firmId, sha256 });
      const copy = await publishedCopy(open, request.query.size);
      return (
        reply
          .type("image/jpeg")
          .header("cache-control", "private, max-age=31536000, immutable")
          // Bytes go out as they are, past the schema.
          .send(copy as never)
      );
    },
  });
};

type Row = NonNullable<Awaited<ReturnType<typeof findPhoto>>>;

const shown = (row: Row) => ({ ...row, receivedAt: row.receivedAt.toISOString() });
