import { inFirm } from "../../db/scope.ts";
import { notFound } from "../../errors.ts";
import type { Feature } from "../../web/feature.ts";
import { IdParams } from "../../web/fields.ts";
import { noBody, problems } from "../../web/responses.ts";
import { signedIn } from "../../web/session.ts";
import { findPerson } from "../people/store.ts";
import { revokeAllSessions } from "../session/store.ts";
import { beginWithPassword, confirmAndEndOthers } from "./enrol.ts";
import { Code, Enrolment, PresentPassword, RecoveryCodes, TwoStepRoles } from "./schemas.ts";
import { endTwoStep } from "./second-step.ts";
import { removeTwoStep, setTwoStepRoles, twoStepRoles } from "./store.ts";

const TAGS = ["Session"];

export const twoStepRoutes: Feature = async (app, { db, config, liveness, now }) => {
  app.post("/api/v1/people/me/two-step", {
    schema: {
      operationId: "beginTwoStep",
      summary: "Begin to set up a second step for signing in",
      tags: TAGS,
      body: PresentPassword,
      response: { 201: Enrolment, ...problems(401, 409, 422, 429) },
    },
    handler: async (request, reply) => {
      const begun = await beginWithPassword(db, config.dataFolder, signedIn(request), {
        ...{ presentPassword: request.body.presentPassword, ip: request.ip },
      });
      return reply.code(201).send(begun);
    },
  });

  app.post("/api/v1/people/me/two-step/confirmation", {
    schema: {
      operationId: "confirmTwoStep",
      summary: "Confirm the second step with its first code",
      description: "Ends your sessions on every other device.",
      tags: TAGS,
      body: Code,
      response: { 201: RecoveryCodes, ...problems(401, 409, 422) },
    },
    handler: async (request, reply) => {
      const { code } = request.body;
      const recoveryCodes = await confirmAndEndOthers(db, config.dataFolder, signedIn(request), {
        ...{ code, now: now() },
      });
      liveness.forget();
      return reply.code(201).send({ recoveryCodes });
    },
  });

  app.post("/api/v1/people/me/two-step/ending", {
    schema: {
      operationId: "endTwoStep",
      summary: "Take the second step off, with a code of it",
      tags: TAGS,
      body: Code,
      response: { 204: noBody(), ...problems(401, 422) },
    },
    handler: async (request, reply) => {
      await endTwoStep(db, config.dataFolder, signedIn(request), request.body.code, now());
      return reply.code(204).send();
    },
  });

  app.post("/api/v1/people/:id/two-step/ending", {
    schema: {
      operationId: "resetTwoStep",
      summary: "Take the second step off for a person who lost the device and the codes",
      description: "Ends every session of that person.",
      tags: TAGS,
      params: IdParams,
      response: { 204: noBody(), ...problems(401, 403, 404, 422) },
    },
    handler: async (request, reply) => {
      const { id } = request.params;
      await inFirm(db, signedIn(request).firmId, async (tx) => {
        if (!(await findPerson(tx, id))) throw notFound("person");
        await removeTwoStep(tx, id);
        await revokeAllSessions(tx, id);
      });
      liveness.forget();
      return reply.code(204).send();
    },
  });

  app.get("/api/v1/firm/two-step-roles", {
    schema: {
      operationId: "readTwoStepRoles",
      summary: "Read for which roles the second step is asked for",
      tags: TAGS,
      response: { 200: TwoStepRoles, ...problems(401, 403) },
    },
    handler: async (request) => {
      const roles = await inFirm(db, signedIn(request).firmId, twoStepRoles);
      return TwoStepRoles.parse({ roles });
    },
  });

  app.put("/api/v1/firm/two-step-roles", {
    schema: {
      operationId: "putTwoStepRoles",
      summary: "Ask for the second step of people with these roles",
      description: "Whoever has none sets it up after the next sign-in and can do nothing before.",
      tags: TAGS,
      body: TwoStepRoles,
      response: { 200: TwoStepRoles, ...problems(401, 403, 422) },
    },
    handler: async (request) => {
      await inFirm(db, signedIn(request).firmId, (tx) => setTwoStepRoles(tx, request.body.roles));
      return request.body;
    },
  });
};
