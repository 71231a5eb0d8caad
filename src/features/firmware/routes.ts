import type { z } from "zod";
import { inFirm } from "../../db/scope.ts";
import { notFound } from "../../errors.ts";
import { matchedVersion, sendETag } from "../../web/etag.ts";
import type { Feature } from "../../web/feature.ts";
import { IdParams } from "../../web/fields.ts";
import { create } from "../../web/idempotency.ts";
import { afterId, toPage } from "../../web/paging.ts";
import { problems } from "../../web/responses.ts";
import { signedIn } from "../../web/session.ts";
import { changeRelease, keepRelease, withdraw } from "./keep-release.ts";
import { findRelease, listReleases } from "./release-store.ts";
import {
  NewRelease,
  Release,
  ReleaseEdit,
  ReleasePage,
  ReleaseQuery,
  ReleaseWithdrawal,
} from "./schemas.ts";

const TAGS = ["Firmware"];

export const firmwareRoutes: Feature = async (app, { db, now }) => {
  app.get("/api/v1/firmware/releases", {
    schema: {
      operationId: "listFirmwareReleases",
      summary: "List firmware releases",
      tags: TAGS,
      querystring: ReleaseQuery,
      response: { 200: ReleasePage, ...problems(401, 403, 422) },
    },
    handler: async (request, reply) => {
      const { limit, cursor, ...filter } = request.query;
      const rows = await inFirm(db, signedIn(request).firmId, (tx) =>
        listReleases(tx, { ...filter, after: afterId(cursor), most: limit + 1 }),
      );
      return toPage(request, reply, rows.map(shown), limit, (row) => row.id);
    },
  });

  app.post("/api/v1/firmware/releases", {
    schema: {
      operationId: "addFirmwareRelease",
      summary: "Record a maker's firmware release",
      tags: TAGS,
      body: NewRelease,
      response: { 201: Release, ...problems(401, 403, 409, 422) },
    },
    handler: async (request, reply) =>
      create(db, request, reply, async (tx) => made(await keepRelease(tx, request.body))),
  });

  app.get("/api/v1/firmware/releases/:id", {
    schema: {
      operationId: "readFirmwareRelease",
      summary: "Read one firmware release",
      tags: TAGS,
      params: IdParams,
      response: { 200: Release, ...problems(401, 403, 404, 422) },
    },
    handler: async (request, reply) => {
      const row = await inFirm(db, signedIn(request).firmId, (tx) =>
        findRelease(tx, request.params.id),
      );
      if (!row) throw notFound("firmware release");
      sendETag(reply, row.version);
      return shown(row);
    },
  });

  app.patch("/api/v1/firmware/releases/:id", {
    schema: {
      operationId: "editFirmwareRelease",
      summary: "Change what is known of a release",
      description:
        "A target's day stays as it was set: set the target again where the severity changed.",
      tags: TAGS,
      params: IdParams,
      body: ReleaseEdit,
      response: { 200: Release, ...problems(401, 403, 404, 412, 422, 428) },
    },
    handler: async (request, reply) => {
      const version = matchedVersion(request);
      const row = await inFirm(db, signedIn(request).firmId, (tx) =>
        changeRelease(tx, request.params.id, version, request.body),
      );
      sendETag(reply, row.version);
      return shown(row);
    },
  });

  app.post("/api/v1/firmware/releases/:id/withdrawal", {
    schema: {
      operationId: "withdrawFirmwareRelease",
      summary: "Withdraw a release that must not be installed any more",
      description: "Where it is its model's target, nothing is due until another target is set.",
      tags: TAGS,
      params: IdParams,
      body: ReleaseWithdrawal.nullish(),
      response: { 201: Release, ...problems(401, 403, 404, 409, 422) },
    },
    handler: async (request, reply) =>
      create(db, request, reply, async (tx) =>
        made(await withdraw(tx, request.params.id, request.body?.reason, now())),
      ),
  });
};

type Row = NonNullable<Awaited<ReturnType<typeof findRelease>>>;

const made = (row: Row) => ({
  location: `/api/v1/firmware/releases/${row.id}`,
  version: row.version,
  body: shown(row),
});

const dayOf = (date: Date): string => date.toISOString().slice(0, 10);

// The key stays inside: as a JSON number it would not hold its 63 bits.
const shown = ({ levelKey: _key, ...row }: Row): z.infer<typeof Release> => ({
  ...row,
  severity: row.severity as z.infer<typeof Release>["severity"],
  releasedOn: dayOf(row.releasedOn),
  withdrawnOn: row.withdrawnOn ? dayOf(row.withdrawnOn) : null,
  companions: row.companions as z.infer<typeof Release>["companions"],
  fileBytes: row.fileBytes === null ? null : Number(row.fileBytes),
});
