import { z } from "zod";
import { inFirm } from "../../db/scope.ts";
import type { Feature } from "../../web/feature.ts";
import { IdParams } from "../../web/fields.ts";
import { create } from "../../web/idempotency.ts";
import { noBody, problems } from "../../web/responses.ts";
import { signedIn } from "../../web/session.ts";
import { addUnitToJob, captureSerial, takeUnitOffJob } from "./keep-units.ts";
import { CapturedUnit, JobUnit, NewJobUnit, NewSerial } from "./schemas.ts";
import { shownUnit } from "./shown.ts";

const TAGS = ["Jobs"];
const UnitParams = IdParams.extend({ unitId: z.guid() });

export const jobUnitRoutes: Feature = async (app, { db, now }) => {
  app.post("/api/v1/jobs/:id/units", {
    schema: {
      operationId: "addJobUnit",
      summary: "Put a unit on an open job, behind those that are on it",
      tags: TAGS,
      params: IdParams,
      body: NewJobUnit,
      response: { 201: JobUnit, ...problems(401, 403, 404, 409, 422) },
    },
    handler: async (request, reply) =>
      create(db, request, reply, async (tx) => {
        const act = { personId: signedIn(request).personId, now: now() };
        const row = await addUnitToJob(tx, request.params.id, request.body.unitId, act);
        return { location: `/api/v1/units/${row.unitId}`, body: shownUnit(row) };
      }),
  });

  app.delete("/api/v1/jobs/:id/units/:unitId", {
    schema: {
      operationId: "removeJobUnit",
      summary: "Take a unit without answers off an open job",
      description:
        "The units behind it move up by one place, unless answers for one of them are there: " +
        "then every unit keeps its place.",
      tags: TAGS,
      params: UnitParams,
      response: { 204: noBody(), ...problems(401, 403, 404, 409, 422) },
    },
    handler: async (request, reply) => {
      const { firmId, personId } = signedIn(request);
      const { id, unitId } = request.params;
      await inFirm(db, firmId, (tx) => takeUnitOffJob(tx, id, unitId, { personId, now: now() }));
      return reply.code(204).send();
    },
  });

  app.post("/api/v1/jobs/:id/serials", {
    schema: {
      operationId: "captureSerial",
      summary: "Put the unit with this serial on the job, receiving it if it is unknown",
      tags: TAGS,
      params: IdParams,
      body: NewSerial,
      response: {
        200: CapturedUnit.describe("The unit was on the job already"),
        201: CapturedUnit,
        ...problems(401, 403, 404, 409, 422),
      },
    },
    handler: async (request, reply) =>
      create(db, request, reply, async (tx) => {
        const act = { personId: signedIn(request).personId, now: now() };
        const { row, ...taken } = await captureSerial(tx, request.params.id, request.body, act);
        return {
          status: taken.isNew ? 201 : 200,
          location: `/api/v1/units/${row.unitId}`,
          body: { ...shownUnit(row), received: taken.isReceived },
        };
      }),
  });
};
