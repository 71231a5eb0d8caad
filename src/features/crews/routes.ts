import { type FirmTransaction, inFirm } from "../../db/scope.ts";
import { notFound, Problem } from "../../errors.ts";
import { editedMeanwhile, matchedVersion, sendETag } from "../../web/etag.ts";
import type { Feature } from "../../web/feature.ts";
import { IdParams } from "../../web/fields.ts";
import { create } from "../../web/idempotency.ts";
import { afterId, toPage } from "../../web/paging.ts";
import { problems } from "../../web/responses.ts";
import { signedIn } from "../../web/session.ts";
import { putMembers } from "./put-members.ts";
import { Crew, CrewEdit, CrewMembers, CrewPage, CrewQuery, NewCrew } from "./schemas.ts";
import { addCrew, editCrew, findCrew, isCrewNameTaken, listCrews } from "./store.ts";

const TAGS = ["Crews"];

export const crewRoutes: Feature = async (app, { db, now }) => {
  app.get("/api/v1/crews", {
    schema: {
      operationId: "listCrews",
      summary: "List crews with their members",
      tags: TAGS,
      querystring: CrewQuery,
      response: { 200: CrewPage, ...problems(401, 403, 422) },
    },
    handler: async (request, reply) => {
      const { limit, cursor, active } = request.query;
      const rows = await inFirm(db, signedIn(request).firmId, (tx) =>
        listCrews(tx, { active, after: afterId(cursor), most: limit + 1 }),
      );
      return toPage(request, reply, rows.map(shown), limit, (row) => row.id);
    },
  });

  app.post("/api/v1/crews", {
    schema: {
      operationId: "addCrew",
      summary: "Make up a crew",
      tags: TAGS,
      body: NewCrew,
      response: { 201: Crew, ...problems(401, 403, 409, 422) },
    },
    handler: async (request, reply) =>
      create(db, request, reply, async (tx) => {
        const { name, personIds } = request.body;
        const id = await addCrew(tx, name);
        if (id === undefined) throw nameTaken(name);
        await putMembers(tx, id, personIds, now());
        const row = await readCrew(tx, id);
        return { location: `/api/v1/crews/${id}`, version: row.version, body: shown(row) };
      }),
  });

  app.get("/api/v1/crews/:id", {
    schema: {
      operationId: "readCrew",
      summary: "Read one crew",
      tags: TAGS,
      params: IdParams,
      response: { 200: Crew, ...problems(401, 403, 404, 422) },
    },
    handler: async (request, reply) => {
      const row = await inFirm(db, signedIn(request).firmId, (tx) =>
        readCrew(tx, request.params.id),
      );
      sendETag(reply, row.version);
      return shown(row);
    },
  });

  app.patch("/api/v1/crews/:id", {
    schema: {
      operationId: "editCrew",
      summary: "Rename a crew, or disband it",
      tags: TAGS,
      params: IdParams,
      body: CrewEdit,
      response: { 200: Crew, ...problems(401, 403, 404, 409, 412, 422, 428) },
    },
    handler: async (request, reply) => {
      const version = matchedVersion(request);
      const { id } = request.params;
      const row = await inFirm(db, signedIn(request).firmId, async (tx) => {
        await readCrew(tx, id);
        const { name } = request.body;
        if (name !== undefined && (await isCrewNameTaken(tx, name, id))) throw nameTaken(name);
        if (!(await editCrew(tx, id, version, request.body))) throw editedMeanwhile();
        return readCrew(tx, id);
      });
      sendETag(reply, row.version);
      return shown(row);
    },
  });

  app.put("/api/v1/crews/:id/members", {
    schema: {
      operationId: "putCrewMembers",
      summary: "Say who the crew is",
      tags: TAGS,
      params: IdParams,
      body: CrewMembers,
      response: { 200: Crew, ...problems(401, 403, 404, 409, 412, 422, 428) },
    },
    handler: async (request, reply) => {
      const version = matchedVersion(request);
      const { id } = request.params;
      const row = await inFirm(db, signedIn(request).firmId, async (tx) => {
        await readCrew(tx, id);
        if (!(await editCrew(tx, id, version, {}))) throw editedMeanwhile();
        await putMembers(tx, id, request.body.personIds, now());
        return readCrew(tx, id);
      });
      sendETag(reply, row.version);
      return shown(row);
    },
  });
};

const nameTaken = (name: string): Problem =>
  new Problem("conflict", `There is a crew named ${name} already. Choose another name.`);

type Row = NonNullable<Awaited<ReturnType<typeof findCrew>>>;

async function readCrew(tx: FirmTransaction, id: string): Promise<Row> {
  const row = await findCrew(tx, id);
  if (!row) throw notFound("crew");
  return row;
}

function shown({ id, name, active, members, createdAt, version }: Row) {
  return {
    id,
    name,
    active,
    members: members.map(({ personId, person }) => ({
      personId,
      name: person.name,
      active: person.active,
    })),
    createdAt: createdAt.toISOString(),
    version,
  };
}
