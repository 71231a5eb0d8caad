import type { Feature } from "../../web/feature.ts";
import { IdParams } from "../../web/fields.ts";
import { noBody, problems } from "../../web/responses.ts";
import { signedIn } from "../../web/session.ts";
import { GIVEN_LIFE_DAYS } from "../session/given-password.ts";
import { OwnPassword, PasswordReset } from "./schemas.ts";
import { resetPassword, setOwnPassword } from "./set-password.ts";

const TAGS = ["People"];

export const passwordRoutes: Feature = async (app, { db, liveness, now }) => {
  app.put("/api/v1/people/me/password", {
    schema: {
      operationId: "setOwnPassword",
      summary: "Set your own password",
      description: "Ends your sessions on every other device.",
      tags: TAGS,
      body: OwnPassword,
      response: { 204: noBody(), ...problems(401, 422, 429) },
    },
    handler: async (request, reply) => {
      await setOwnPassword(db, signedIn(request), request.body, request.ip);
      liveness.forget();
      return reply.code(204).send();
    },
  });

  app.put("/api/v1/people/:id/password", {
    schema: {
      operationId: "resetPassword",
      summary: "Set a new password for a person who forgot theirs",
      description: `Ends every session of that person; good for ${GIVEN_LIFE_DAYS} days.`,
      tags: TAGS,
      params: IdParams,
      body: PasswordReset,
      response: { 204: noBody(), ...problems(401, 403, 404, 422) },
    },
    handler: async (request, reply) => {
      const { firmId } = signedIn(request);
      await resetPassword(db, firmId, request.params.id, request.body.password, now());
      liveness.forget();
      return reply.code(204).send();
    },
  });
};
