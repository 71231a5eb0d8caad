import type { FastifyReply, FastifyRequest } from "fastify";
import { z } from "zod";
import { inFirm } from "../../db/scope.ts";
import type { WorkDay } from "../../domain/scheduling/work-week.ts";
import type { ShownLanguage } from "../../language/languages.ts";
import { weekdayName } from "../../language/moments.ts";
import { say } from "../../language/say.ts";
import type { Feature } from "../../web/feature.ts";
import { IdParams } from "../../web/fields.ts";
import { refusedFields, SINGLE_FIELDS } from "../../web/form.ts";
import { sendPage } from "../../web/page.ts";
import { signedIn } from "../../web/session.ts";
import { hoursOfSite, putHours } from "./put-hours.ts";
import { VisitHoursInput } from "./schemas.ts";

const WEEKDAYS = [1, 2, 3, 4, 5, 6, 7];
/** A morning and an afternoon. */
const PARTS = ["", "b"] as const;
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
      const named = namedHours(typed);
      const read = VisitHoursInput.safeParse({ hours: named });
      if (!read.success) {
        const problems = read.error.issues.map(({ path, message }) => {
          const weekday = named[Number(path[1])]?.weekday;
          return weekday ? `${weekdayName(request.language, weekday)}: ${message}` : message;
        });
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
      days: rowsOf(typed ?? typedFrom(hours), language),
    });
  }
};

type Typed = Readonly<Record<string, string>>;

function namedHours(typed: Typed): WorkDay[] {
  return WEEKDAYS.flatMap((weekday) =>
    PARTS.flatMap((part) => {
      const [from = "", to = ""] = [typed[`from${weekday}${part}`], typed[`to${weekday}${part}`]];
      return from || to ? [{ weekday, from, to }] : [];
    }),
  );
}

function typedFrom(hours: readonly WorkDay[]): Typed {
  const typed: Record<string, string> = {};
  for (const { weekday, from, to } of hours) {
    const part = typed[`from${weekday}`] === undefined ? "" : "b";
    typed[`from${weekday}${part}`] = from;
    typed[`to${weekday}${part}`] = to;
  }
  return typed;
}

const rowsOf = (typed: Typed, language: ShownLanguage) =>
  WEEKDAYS.map((weekday) => ({
    name: weekdayName(language, weekday),
    cells: PARTS.map((part, index) => ({
      number: index + 1,
      ...{ fromName: `from${weekday}${part}`, toName: `to${weekday}${part}` },
      ...{ from: typed[`from${weekday}${part}`], to: typed[`to${weekday}${part}`] },
    })),
  }));
