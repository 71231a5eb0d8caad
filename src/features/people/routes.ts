import { inFirm, inFirmAs } from "../../db/scope.ts";
import { notFound, Problem } from "../../errors.ts";
import { matchedVersion, sendETag } from "../../web/etag.ts";
import type { Feature } from "../../web/feature.ts";
import { IdParams } from "../../web/fields.ts";
import { create } from "../../web/idempotency.ts";
import { afterId, toPage } from "../../web/paging.ts";
import { problems } from "../../web/responses.ts";
import type { Role } from "../../web/roles.ts";
import { signedIn } from "../../web/session.ts";
import { hashPassword } from "../session/password.ts";
import { addPersonUnlessTaken } from "./add-person.ts";
import { editPersonSafely } from "./edit-person.ts";
import { refuseGuessablePassword } from "./guessable-password.ts";
import { passwordRoutes } from "./password-routes.ts";
import { NewPerson, Person, PersonEdit, PersonPage, PersonQuery } from "./schemas.ts";
import { findPerson, listPeople } from "./store.ts";

const TAGS = ["People"];

export const peopleRoutes: Feature = async (app, context) => {
  const { db, liveness, now } = context;
  await passwordRoutes(app, context);

  app.get("/api/v1/people", {
    schema: {
      operationId: "listPeople",
      summary: "List the firm's people",
      tags: TAGS,
      querystring: PersonQuery,
      response: { 200: PersonPage, ...problems(401, 403, 422) },
    },
    handler: async (request, reply) => {
      const { limit, cursor, ...filter } = request.query;
      const rows = await inFirm(db, signedIn(request).firmId, (tx) =>
        listPeople(tx, { ...filter, after: afterId(cursor), most: limit + 1 }),
      );
      return toPage(request, reply, rows.map(shown), limit, (row) => row.id);
    },
  });

  app.post("/api/v1/people", {
    schema: {
      operationId: "addPerson",
      summary: "Add a person who signs in",
      tags: TAGS,
      body: NewPerson,
      response: { 201: Person, ...problems(401, 403, 409, 422) },
    },
    handler: async (request, reply) => {
      const { password, auditUntil, ...fields } = request.body;
      await refuseGuessablePassword(password, fields);
      const passwordHash = await hashPassword(password);
      // An Idempotency-Key is stored with a quick hash of the body: keep the password out of it.
      request.body = { ...fields, auditUntil } as typeof request.body;
      const beginning = { now: now(), until: auditUntil };
      const person = { ...fields, passwordHash, passwordGivenAt: now() };
      return create(db, request, reply, async (tx) => {
        const row = await addPersonUnlessTaken(tx, person, beginning);
        if (!row) throw addressTaken(fields.email);
        return { location: `/api/v1/people/${row.id}`, version: row.version, body: shown(row) };
      });
    },
  });

  app.get("/api/v1/people/:id", {
    schema: {
      operationId: "readPerson",
      summary: "Read one person",
      tags: TAGS,
      params: IdParams,
      response: { 200: Person, ...problems(401, 403, 404, 422) },
    },
    handler: async (request, reply) => {
      const row = await inFirm(db, signedIn(request).firmId, (tx) =>
        findPerson(tx, request.params.id),
      );
      if (!row) throw notFound("person");
      sendETag(reply, row.version);
      return shown(row);
    },
  });

  app.patch("/api/v1/people/:id", {
    schema: {
      operationId: "editPerson",
      summary: "Change a person's name or roles, or stop them signing in",
      tags: TAGS,
      params: IdParams,
      body: PersonEdit,
      response: { 200: Person, ...problems(401, 403, 404, 409, 412, 422, 428) },
    },
    handler: async (request, reply) => {
      const version = matchedVersion(request);
      const row = await inFirmAs(db, signedIn(request), (tx) =>
        editPersonSafely(tx, request.params.id, { version, ...request.body }, now()),
      );
      liveness.forget();
      sendETag(reply, row.version);
      return shown(row);
    },
  });
};

const addressTaken = (email: string): Problem =>
  new Problem(
    "conflict",
    `Somebody signs in with ${email} already. Use another address, or edit that person.`,
  );

type Row = NonNullable<Awaited<ReturnType<typeof findPerson>>>;

function shown({ id, email, name, roles, active, createdAt, version }: Row) {
  return {
    id,
    email,
    name,
    roles: roles as Role[],
    active,
    createdAt: createdAt.toISOString(),
    version,
  };
}
