import type { FastifyReply, FastifyRequest } from "fastify";
import { z } from "zod";
import { inFirm } from "../../db/scope.ts";
import { say } from "../../language/say.ts";
import type { Feature } from "../../web/feature.ts";
import { IdParams } from "../../web/fields.ts";
import { refusedFields, SINGLE_FIELDS } from "../../web/form.ts";
import { sendPage } from "../../web/page.ts";
import { signedIn } from "../../web/session.ts";
import { namedHours, rowsOf, TWO_PARTS, typedFrom, weekProblems } from "../../web/week-fields.ts";
import { hoursOfSite, putHours } from "./put-hours.ts";
import { VisitHoursInput } from "./schemas.ts";

const Query = z.object({ saved: z.string().max(1).optional() });

export const visitHoursPages: Feature = async (app, { db }) => {
  app.get("/sites/:id/visit-hours", {
    schema: { operationId: "visitHoursPage", hide: true, params: IdParams, querystring: Query },
    handler: async (request, reply) => show(request, reply, request.params.id, {}),
  });

  app.post("/sites/:id/visit-hours", {
    schema: {
      ...{ operationId: "putVisitHoursForm", hide: true },
      ...{ params: IdParams, body: SINGLE_FIELDS },
    },
    handler: async (request, reply) => {
      const { id } = request.params;
      const typed = request.body;
      const named = namedHours(typed, TWO_PARTS);
      const read = VisitHoursInput.safeParse({ hours: named });
      if (!read.success) {
        const problems = weekProblems(read.error.issues, named, request.language);
        return show(request, reply.code(422), id, { typed, problems });
      }
      try {
        await inFirm(db, signedIn(request).firmId, (tx) =>
          putHours(tx, id, Number(typed.version), read.data.hours),
        );
      } catch (error) {
        const problems = Object.values(refusedFields(error));
        return show(request, reply.code(409), id, { typed, problems });
      }
      return reply.redirect(`/sites/${id}/visit-hours?saved=1`, 303);
    },
  });

  async function show(
    request: FastifyRequest,
    reply: FastifyReply,
    id: string,
    { typed, problems }: { typed?: Record<string, string>; problems?: string[] },
  ) {
    const { language } = request;
    const { site, visitHours } = await inFirm(db, signedIn(request).firmId, (tx) =>
      hoursOfSite(tx, id),
    );
    const { hours, version } = visitHours;
    return sendPage(request, reply, "visit-hours", {
      title: `${say(language, "visitHours.title")} ${site.reference}`,
      ...{ site, problems, version: typed?.version ?? version },
      saved: (request.query as z.infer<typeof Query>).saved !== undefined,
      days: rowsOf(typed ?? typedFrom(hours), language, TWO_PARTS),
    });
  }
};
