import type { FastifyReply, FastifyRequest } from "fastify";
import { z } from "zod";
import { inFirm } from "../../db/scope.ts";
import type { ShownLanguage } from "../../language/languages.ts";
import { dayAndTime, number } from "../../language/moments.ts";
import { say } from "../../language/say.ts";
import { CSV_TYPE } from "../../web/csv.ts";
import type { Feature } from "../../web/feature.ts";
import { cutTo, type FieldProblems, refusedFields, requireForm } from "../../web/form.ts";
import { filledForm, withFormFiles } from "../../web/form-files.ts";
import { sendPage } from "../../web/page.ts";
import { signedIn } from "../../web/session.ts";
import { A_PAGE, asked, sortedPage, sortedQuery, sortingOf } from "../../web/sorted-list.ts";
import { readFirm } from "../firms/store.ts";
import { exampleOf } from "./example.ts";
import type { Place } from "./import-state.ts";
import { receiveFile } from "./receive-file.ts";
import { FILE_BYTES_MOST, IMPORT_KINDS, IMPORT_STATES, NewImport } from "./schemas.ts";
import { shown } from "./shown.ts";
import { COLUMNS, sortedImports } from "./sorted-store.ts";
import { stateView } from "./state-view.ts";
import { addImport } from "./store.ts";

const PATH = "/imports";
const USUAL = "-begun";
/** What a form without a script is taken apart in memory for; the script sends more as it reads. */
const FORM_BYTES_MOST = 8 * 1024 * 1024;
const Query = z.object({
  ...sortedQuery(COLUMNS),
  kind: asked(z.enum(IMPORT_KINDS)),
  state: asked(z.enum(IMPORT_STATES)),
});
const ExampleParams = z.object({ kind: z.enum(IMPORT_KINDS) });

export const importPages: Feature = async (app, { db, config, now }) => {
  app.get("/imports", {
    schema: { operationId: "importsPage", hide: true, querystring: Query },
    handler: async (request, reply) => show(request, reply, {}),
  });

  await withFormFiles(app, FORM_BYTES_MOST, (within, bodyLimit) => {
    within.post("/imports", {
      bodyLimit,
      schema: { operationId: "addImportForm", hide: true, querystring: Query },
      handler: async (request, reply) => {
        const { fields, files } = await filledForm(request);
        const { firmId, personId } = signedIn(request);
        const [file] = files;
        if (!file) {
          const problems = { file: say(request.language, "imports.chooseFile") };
          return show(request, reply.code(422), { typed: fields, problems });
        }
        const fileName = cutTo(file.name.split(/[\\/]/).at(-1) ?? "", 200) || "import.csv";
        const place: Place = { db, dataFolder: config.dataFolder, firmId };
        try {
          const begun = requireForm(NewImport, { kind: fields.kind, fileName });
          const row = await inFirm(db, firmId, (tx) =>
            addImport(tx, { ...begun, personId }, now()),
          );
          await receiveFile(place, row.id, oneChunk(file.bytes));
          return reply.redirect(`/imports/${row.id}`, 303);
        } catch (error) {
          const [problem = ""] = Object.values(refusedFields(error));
          return show(request, reply.code(422), { typed: fields, problems: { file: problem } });
        }
      },
    });
  });

  app.get("/imports/examples/:kind", {
    schema: { operationId: "importExample", hide: true, params: ExampleParams },
    handler: async (request, reply) => {
      const { kind } = request.params;
      return reply
        .type(CSV_TYPE)
        .header("content-disposition", `attachment; filename="${kind}.csv"`)
        .send(exampleOf(kind) as never);
    },
  });

  async function show(
    request: FastifyRequest,
    reply: FastifyReply,
    { typed = {}, problems }: { typed?: Record<string, string>; problems?: FieldProblems },
  ) {
    const { language } = request;
    const { firmId, roles } = signedIn(request);
    const query = request.query as z.infer<typeof Query>;
    const { sort: _sort, cursor: _cursor, ...filter } = query;
    const asks = { ...filter, sorting: sortingOf(query, USUAL), most: A_PAGE + 1 };
    const { found, timeZone } = await inFirm(db, firmId, async (tx) => ({
      found: await sortedImports(tx, asks),
      timeZone: (await readFirm(tx)).timeZone,
    }));
    const { rows, list } = sortedPage(found, {
      ...{ path: PATH, columns: COLUMNS, usual: USUAL, query },
      exportPath: "/api/v1/exports/imports.csv",
    });
    return sendPage(request, reply, "imports", {
      ...{ title: say(language, "imports.title"), scripts: ["imports"], typed, problems },
      mayImport: roles.some((role) => role === "owner" || role === "office"),
      bytesMost: FILE_BYTES_MOST,
      ...{ filter, filtered: (filter.kind ?? filter.state) !== undefined },
      kinds: kindChoices(language),
      states: IMPORT_STATES.map((value) => ({
        value,
        text: say(language, `imports.state.${value}`),
      })),
      imports: rows.map((row) => ({
        ...{ id: row.id, fileName: row.fileName, by: row.person.name },
        ...stateView(shown(row), language),
        kindName: say(language, `imports.kind.${shown(row).kind}`),
        at: dayAndTime(language, row.createdAt, timeZone),
        rows: number(language, shown(row).figures.rows ?? 0),
      })),
      list,
    });
  }
};

const kindChoices = (language: ShownLanguage) =>
  IMPORT_KINDS.map((value) => ({ value, text: say(language, `imports.kind.${value}`) }));

async function* oneChunk(bytes: Buffer): AsyncGenerator<Uint8Array> {
  yield bytes;
}
