// What was taken away as evidence, how far the next bag is, and asking for one.
import type { FastifyReply, FastifyRequest } from "fastify";
import { z } from "zod";
import { inFirm } from "../../db/scope.ts";
import { dayAndTime } from "../../language/moments.ts";
import { say } from "../../language/say.ts";
import type { Feature } from "../../web/feature.ts";
import { type FieldProblems, type FormBody, refusedFields, SINGLE_FIELDS } from "../../web/form.ts";
import { listView } from "../../web/list-view.ts";
import { sendPage } from "../../web/page.ts";
import { afterId } from "../../web/paging.ts";
import { signedIn } from "../../web/session.ts";
import { certificatesPath } from "../evidence/export-bag.ts";
import { readFirm } from "../firms/store.ts";
import { exportsOf } from "./background.ts";
import { beginExport } from "./begin-export.ts";
import { scopeOfForm } from "./form-scope.ts";
import { shown } from "./shown.ts";
import { listEvidenceExports } from "./store.ts";

const A_PAGE = 20;
const SCOPES = ["site", "unit", "period", "fleet"] as const;
const PageQuery = z.object({ cursor: z.string().max(200).optional() });

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
    const { cursor } = request.query as z.infer<typeof PageQuery>;
    const { rows: found, timeZone } = await inFirm(db, firmId, async (tx) => ({
      rows: await listEvidenceExports(tx, { before: afterId(cursor), most: A_PAGE + 1 }),
      timeZone: (await readFirm(tx)).timeZone,
    }));
    const rows = found.slice(0, A_PAGE);
    const last = found.length > A_PAGE ? rows.at(-1) : undefined;
    return sendPage(request, reply, "evidence", {
      title: say(language, "evidence.title"),
      ...{ typed: { kind: "site", ...typed }, problems, scripts: ["evidence"] },
      scopes: SCOPES.map((value) => ({ value, text: say(language, `evidence.scope.${value}`) })),
      certificates: certificatesPath(firmId),
      rows: rows.map((row) => ({
        ...shown(row),
        made: dayAndTime(language, row.createdAt, timeZone),
        size: say(language, "evidence.size", {
          megabytes: (Number(row.bytes ?? 0) / 1_000_000).toFixed(1),
        }),
        stateName: say(language, `evidence.state.${shown(row).state}`),
        stamped: row.stampedAt && dayAndTime(language, row.stampedAt, timeZone),
        isMaking: row.state === "making",
        isReady: row.state === "ready",
      })),
      list: listView({
        ...{ path: "/evidence", filters: {}, cursor },
        next: last ? Buffer.from(last.id).toString("base64url") : null,
      }),
    });
  }
};
