// What was taken away as evidence, how far the next bag is, and asking for one.
import type { FastifyReply, FastifyRequest } from "fastify";
import { z } from "zod";
import { inFirm } from "../../db/scope.ts";
import { dayAndTime } from "../../language/moments.ts";
import { say } from "../../language/say.ts";
import type { Feature } from "../../web/feature.ts";
import { type FieldProblems, type FormBody, refusedFields, SINGLE_FIELDS } from "../../web/form.ts";
import { sendPage } from "../../web/page.ts";
import { signedIn } from "../../web/session.ts";
import { A_PAGE, asked, sortedPage, sortedQuery, sortingOf } from "../../web/sorted-list.ts";
import { certificatesPath } from "../evidence/export-bag.ts";
import { readFirm } from "../firms/store.ts";
import { exportsOf } from "./background.ts";
import { beginExport } from "./begin-export.ts";
import { scopeOfForm } from "./form-scope.ts";
import { EXPORT_STATES } from "./schemas.ts";
import { shown } from "./shown.ts";
import { COLUMNS, sortedExports } from "./sorted-store.ts";
import type { ExportRow } from "./store.ts";
import { titleIn } from "./title-in.ts";

const PATH = "/evidence";
const USUAL = "-made";
const SCOPES = ["site", "unit", "period", "fleet"] as const;
const PageQuery = z.object({ ...sortedQuery(COLUMNS), state: asked(z.enum(EXPORT_STATES)) });

export const evidenceExportPages: Feature = async (app, context) => {
  const { db, now } = context;
  const background = exportsOf(app, context);

  app.get("/evidence", {
    schema: { operationId: "evidencePage", hide: true, querystring: PageQuery },
    handler: async (request, reply) => show(request, reply, {}),
  });

  app.post("/evidence", {
    schema: {
      operationId: "evidenceForm",
      ...{ hide: true, querystring: PageQuery, body: SINGLE_FIELDS },
    },
    handler: async (request, reply) => {
      const { firmId, personId } = signedIn(request);
      try {
        const row = await inFirm(db, firmId, async (tx) =>
          beginExport(tx, await scopeOfForm(tx, request.body), personId, now()),
        );
        background.start(firmId, row.id);
        return reply.redirect("/evidence", 303);
      } catch (error) {
        return show(request, reply.code(422), request.body, refusedFields(error));
      }
    },
  });

  async function show(
    request: FastifyRequest,
    reply: FastifyReply,
    typed: FormBody,
    problems?: FieldProblems,
  ) {
    const { language } = request;
    const { firmId } = signedIn(request);
    const query = request.query as z.infer<typeof PageQuery>;
    const { state } = query;
    const asks = { state, sorting: sortingOf(query, USUAL), most: A_PAGE + 1 };
    const { found, timeZone } = await inFirm(db, firmId, async (tx) => ({
      found: await sortedExports(tx, asks),
      timeZone: (await readFirm(tx)).timeZone,
    }));
    const { rows, list } = sortedPage(found, {
      ...{ path: PATH, columns: COLUMNS, usual: USUAL, query },
      exportPath: "/api/v1/exports/evidence-exports.csv",
    });
    return sendPage(request, reply, "evidence", {
      title: say(language, "evidence.title"),
      ...{ typed: { kind: "site", ...typed }, problems, scripts: ["evidence"] },
      scopes: SCOPES.map((value) => ({ value, text: say(language, `evidence.scope.${value}`) })),
      certificates: certificatesPath(firmId),
      rows: rows.map((row) => listed(row, language, timeZone)),
      ...{ list, filter: { state }, filtered: state !== undefined },
      states: EXPORT_STATES.map((value) => ({
        ...{ value, text: say(language, `evidence.state.${value}`) },
      })),
    });
  }
};

const listed = (row: ExportRow, language: FastifyRequest["language"], timeZone: string) => ({
  ...shown(row),
  title: titleIn(language, row),
  made: dayAndTime(language, row.createdAt, timeZone),
  size: say(language, "evidence.size", {
    megabytes: (Number(row.bytes ?? 0) / 1_000_000).toFixed(1),
  }),
  stateName: say(language, `evidence.state.${shown(row).state}`),
  stamped: row.stampedAt && dayAndTime(language, row.stampedAt, timeZone),
  isMaking: row.state === "making",
  isReady: row.state === "ready",
});
