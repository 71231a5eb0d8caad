import type { FastifyReply, FastifyRequest } from "fastify";
import { z } from "zod";
import { inFirm } from "../../db/scope.ts";
import { say } from "../../language/say.ts";
import type { Feature } from "../../web/feature.ts";
import { IdParams } from "../../web/fields.ts";
import { refusedFields } from "../../web/form.ts";
import { listView } from "../../web/list-view.ts";
import { sendPage } from "../../web/page.ts";
import { signedIn } from "../../web/session.ts";
import { importsOf } from "./background.ts";
import { columnsView, wishOf } from "./columns-form.ts";
import { cancelImport, confirmImport } from "./decide-import.ts";
import { requireImport } from "./import-state.ts";
import { listBadRows } from "./rows-store.ts";
import { Confirmation } from "./schemas.ts";
import { shown } from "./shown.ts";
import { startDryRun } from "./start-dry-run.ts";
import { figuresView, percentOf, stateView } from "./state-view.ts";
import { afterLine } from "./step-routes.ts";

const BAD_ROWS_A_PAGE = 25;
const CELLS_SHOWN = 6;
const Query = z.object({ cursor: z.string().max(200).optional() });
const FormFields = z.record(z.string(), z.string().max(300));
const LISTS = {
  ...{ customers: "/customers", sites: "/sites", units: "/units", instruments: "/instruments" },
  "firmware-levels": "/firmware",
} as const;

export const importDetailPages: Feature = async (app, context) => {
  const { db, config, now } = context;
  const background = importsOf(app, context);

  app.get("/imports/:id", {
    schema: { operationId: "importPage", hide: true, params: IdParams, querystring: Query },
    handler: async (request, reply) => show(request, reply, request.params.id),
  });

  app.post("/imports/:id/dry-run", {
    schema: { operationId: "tryImportForm", hide: true, params: IdParams, body: FormFields },
    handler: async (request, reply) => {
      const { id } = request.params;
      const { firmId } = signedIn(request);
      return done(request, reply, id, async () => {
        const row = await inFirm(db, firmId, (tx) => requireImport(tx, id));
        const wish = wishOf(request.body, row);
        await startDryRun({ db, dataFolder: config.dataFolder, firmId }, id, wish, now());
        background.start(firmId, id);
      });
    },
  });

  app.post("/imports/:id/confirmation", {
    schema: { operationId: "confirmImportForm", hide: true, params: IdParams, body: Confirmation },
    handler: async (request, reply) => {
      const { id } = request.params;
      const { firmId } = signedIn(request);
      return done(request, reply, id, async () => {
        await inFirm(db, firmId, (tx) => confirmImport(tx, id, request.body.badRows));
        background.start(firmId, id);
      });
    },
  });

  app.post("/imports/:id/cancellation", {
    schema: { operationId: "cancelImportForm", hide: true, params: IdParams },
    handler: async (request, reply) => {
      const { id } = request.params;
      const { firmId } = signedIn(request);
      return done(request, reply, id, () =>
        inFirm(db, firmId, (tx) => cancelImport(tx, id, now())),
      );
    },
  });

  async function done(
    request: FastifyRequest,
    reply: FastifyReply,
    id: string,
    work: () => Promise<unknown>,
  ) {
    try {
      await work();
    } catch (error) {
      const problem = Object.values(refusedFields(error))[0];
      return show(request, reply.code(409), id, problem);
    }
    return reply.redirect(`/imports/${id}`, 303);
  }

  async function show(request: FastifyRequest, reply: FastifyReply, id: string, problem?: string) {
    const { language } = request;
    const { firmId, roles } = signedIn(request);
    const { cursor } = request.query as z.infer<typeof Query>;
    const page = { after: afterLine(cursor), most: BAD_ROWS_A_PAGE + 1 };
    const { row, bad } = await inFirm(db, firmId, async (tx) => ({
      row: shown(await requireImport(tx, id)),
      bad: await listBadRows(tx, id, page),
    }));
    const last = bad.length > BAD_ROWS_A_PAGE ? bad[BAD_ROWS_A_PAGE - 1] : undefined;
    const { state, figures } = row;
    const good = (figures.new ?? 0) + (figures.changed ?? 0);
    const mayImport = roles.some((role) => role === "owner" || role === "office");
    return sendPage(request, reply, "import", {
      ...{ title: row.fileName, scripts: ["imports"], row, problem, mayImport },
      kindName: say(language, `imports.kind.${row.kind}`),
      listHref: LISTS[row.kind],
      ...stateView(row, language),
      isRunning: state === "checking" || state === "importing",
      isDone: state === "imported",
      ...{ percent: percentOf(row), good, figures: figuresView(row, language) },
      isChecked: state === "checked",
      mayConfirm: mayImport && state === "checked" && good > 0,
      mayChoose: mayImport && ["uploaded", "checked", "failed"].includes(state),
      mayCancel: mayImport && !["imported", "cancelled"].includes(state),
      columns: columnsView(row, language),
      badCount: figures.bad,
      badRows: bad.slice(0, BAD_ROWS_A_PAGE).map(({ line, reason, cells }) => ({
        ...{ line, reason, cells: cells.slice(0, CELLS_SHOWN).join(" · ") },
      })),
      list: listView({
        ...{ path: `/imports/${id}`, filters: {}, cursor },
        next: last ? Buffer.from(String(last.line)).toString("base64url") : null,
      }),
    });
  }
};
