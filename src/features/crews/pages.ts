import type { FastifyReply, FastifyRequest } from "fastify";
import { z } from "zod";
import { type FirmTransaction, inFirm } from "../../db/scope.ts";
import { notFound, Problem } from "../../errors.ts";
import { say } from "../../language/say.ts";
import { editedMeanwhile } from "../../web/etag.ts";
import type { Feature } from "../../web/feature.ts";
import { IdParams } from "../../web/fields.ts";
import {
  type FieldProblems,
  type FormBody,
  listOf,
  readForm,
  refusedFields,
} from "../../web/form.ts";
import { sendPage } from "../../web/page.ts";
import { signedIn } from "../../web/session.ts";
import { A_PAGE, asked, sortedPage, sortedQuery, sortingOf } from "../../web/sorted-list.ts";
import { listPeople } from "../people/store.ts";
import { putMembers } from "./put-members.ts";
import { CrewEdit, NewCrew } from "./schemas.ts";
import { COLUMNS, sortedCrews } from "./sorted-store.ts";
import { addCrew, editCrew, findCrew, isCrewNameTaken } from "./store.ts";

const PATH = "/crews";
const USUAL = "crew";
const PEOPLE_MOST = 200;
const PageQuery = z.object({
  ...sortedQuery(COLUMNS),
  name: asked(z.string().trim().max(80)),
  active: asked(z.enum(["true", "false"])),
});
const FormFields = z.record(z.string(), z.union([z.string(), z.array(z.string())]));
const Edit = CrewEdit.required({ name: true })
  .omit({ active: true })
  .extend({
    personIds: NewCrew.shape.personIds,
    active: z.stringbool().default(false),
    version: z.coerce.number().int(),
  });

type PageQuery = z.infer<typeof PageQuery>;

interface Shown {
  id?: string;
  typed: FormBody;
  problems?: FieldProblems;
}

export const crewPages: Feature = async (app, { db, now }) => {
  const show = async (request: FastifyRequest, reply: FastifyReply, shown: Shown) => {
    const { firmId, roles } = signedIn(request);
    const mayEdit = roles.some((role) => role === "owner" || role === "office");
    const { people, listed } = await inFirm(db, firmId, async (tx) => ({
      people: mayEdit
        ? await listPeople(tx, { role: "installer", active: true, most: PEOPLE_MOST })
        : [],
      listed: shown.id === undefined ? await readList(tx, request.query as PageQuery) : {},
    }));
    const ticked = listOf(shown.typed.personIds);
    return sendPage(request, reply, shown.id === undefined ? "crews" : "crew", {
      title: say(request.language, "crews.title"),
      ...listed,
      ...shown,
      mayEdit,
      people: people.map(({ id, name }) => ({ id, name, ticked: ticked.includes(id) })),
    });
  };

  app.get("/crews", {
    schema: { operationId: "crewsPage", hide: true, querystring: PageQuery },
    handler: async (request, reply) => show(request, reply, { typed: {} }),
  });

  app.post("/crews", {
    schema: {
      operationId: "addCrewForm",
      ...{ hide: true, querystring: PageQuery, body: FormFields },
    },
    handler: async (request, reply) => {
      const typed = request.body;
      const read = readForm(NewCrew, { ...typed, personIds: listOf(typed.personIds) });
      if (!read.ok) return show(request, reply.code(422), { typed, problems: read.problems });
      try {
        await inFirm(db, signedIn(request).firmId, async (tx) => {
          const id = await addCrew(tx, read.value.name);
          if (id === undefined) throw nameTaken(read.value.name);
          await putMembers(tx, id, read.value.personIds, now());
        });
      } catch (error) {
        return show(request, reply.code(422), { typed, problems: refusedFields(error) });
      }
      return reply.redirect("/crews", 303);
    },
  });

  app.get("/crews/:id", {
    schema: { operationId: "crewPage", hide: true, params: IdParams },
    handler: async (request, reply) => {
      const { id } = request.params;
      const row = await inFirm(db, signedIn(request).firmId, (tx) => readCrew(tx, id));
      const typed = {
        name: row.name,
        personIds: row.members.map(({ personId }) => personId),
        active: String(row.active),
        version: String(row.version),
      };
      return show(request, reply, { id, typed });
    },
  });

  app.post("/crews/:id", {
    schema: { operationId: "editCrewForm", hide: true, params: IdParams, body: FormFields },
    handler: async (request, reply) => {
      const typed = request.body;
      const { id } = request.params;
      const read = readForm(Edit, { ...typed, personIds: listOf(typed.personIds) });
      if (!read.ok) return show(request, reply.code(422), { id, typed, problems: read.problems });
      const { name, active, version, personIds } = read.value;
      try {
        await inFirm(db, signedIn(request).firmId, async (tx) => {
          await readCrew(tx, id);
          if (await isCrewNameTaken(tx, name, id)) throw nameTaken(name);
          if (!(await editCrew(tx, id, version, { name, active }))) throw editedMeanwhile();
          await putMembers(tx, id, personIds, now());
        });
      } catch (error) {
        return show(request, reply.code(422), { id, typed, problems: refusedFields(error) });
      }
      return reply.redirect("/crews", 303);
    },
  });
};

/** Crews that go out, unless those that were disbanded are asked for. */
async function readList(tx: FirmTransaction, query: PageQuery) {
  const { name, active = "true" } = query;
  const asks = { name, active: active === "true", sorting: sortingOf(query, USUAL) };
  const { rows, list } = sortedPage(await sortedCrews(tx, { ...asks, most: A_PAGE + 1 }), {
    ...{ path: PATH, columns: COLUMNS, usual: USUAL, query: { ...query, active } },
    exportPath: "/api/v1/exports/crews.csv",
  });
  const filtered = name !== undefined || active === "false";
  return { crews: rows, list, filter: { name, active }, filtered };
}

async function readCrew(tx: FirmTransaction, id: string) {
  const row = await findCrew(tx, id);
  if (!row) throw notFound("crew");
  return row;
}

const nameTaken = (name: string): Problem =>
  new Problem("conflict", `There is a crew named ${name} already. Choose another name.`, {
    errors: [{ pointer: "/body/name", detail: "is the name of another crew" }],
  });
