import type { FastifyReply, FastifyRequest } from "fastify";
import { z } from "zod";
import { inFirm, inFirmAs } from "../../db/scope.ts";
import { say } from "../../language/say.ts";
import type { Feature } from "../../web/feature.ts";
import { IdParams } from "../../web/fields.ts";
import { refusedFields } from "../../web/form.ts";
import { keepsRecords, plansWork } from "../../web/office.ts";
import { sendPage } from "../../web/page.ts";
import { signedIn } from "../../web/session.ts";
import { A_PAGE, sortedPage, sortingOf } from "../../web/sorted-list.ts";
import { namedHours, ONE_PART, rowsOf, typedFrom, weekProblems } from "../../web/week-fields.ts";
import { todayOfFirm } from "../firms/today.ts";
import { staffByName } from "../people/staff-store.ts";
import { hoursOf, personHours, putPersonHours, putWorkingHours } from "./keep-hours.ts";
import { visitsOutside } from "./outside-hours.ts";
import { PersonWeekInput, WorkingHoursInput } from "./schemas.ts";
import { readWeeks } from "./store.ts";
import { nextTold, placeChoices, placeName, shownWeek, weekRows } from "./week-view.ts";

const Query = z.object({
  cursor: z.string().max(1000).optional(),
  saved: z.string().max(1).optional(),
});
const Fields = z
  .object({ version: z.coerce.number().int(), own: z.stringbool().default(true) })
  .catchall(z.string().max(200));
type Typed = Readonly<Record<string, string>>;

interface Failed {
  typed: Typed;
  problems: readonly string[];
}

export const workingHoursPages: Feature = async (app, { db, now }) => {
  app.get("/working-hours", {
    schema: { operationId: "workingHoursPage", hide: true, querystring: Query },
    handler: async (request, reply) => {
      const { language, query } = request;
      const { firmId, personId, roles } = signedIn(request);
      const seesAll = plansWork(request) || roles.includes("auditor");
      const own = seesAll ? undefined : personId;
      const { after } = sortingOf(query, "name");
      const page = await inFirm(db, firmId, async (tx) => {
        const found = await staffByName(tx, { personId: own, after, most: A_PAGE + 1 });
        const { rows, list } = sortedPage(
          found.map((person) => ({ ...person, place: person.name })),
          { path: "/working-hours", columns: [], usual: "name", query: { cursor: query.cursor } },
        );
        const weeks = await readWeeks(tx);
        const today = await todayOfFirm(tx, now());
        const { holidays } = await hoursOf(tx, today);
        return {
          ...{ list, ...weekRows(weeks, rows, { today, language }) },
          outside: await visitsOutside(tx, weeks, { from: now(), personId: own }),
          holidays: holidays && placeName(holidays, language),
        };
      });
      return sendPage(request, reply, "working-hours", {
        title: say(language, "workingHours.title"),
        ...{ ...page, mayEdit: keepsRecords(request), styles: ["registry", "hours"] },
        saved: query.saved !== undefined,
        weekdays: shownWeek([], language).days,
      });
    },
  });

  const showForm = async (
    request: FastifyRequest,
    reply: FastifyReply,
    id: string | undefined,
    failed?: Failed,
  ) => {
    const { language } = request;
    const { person, ...kept } = await inFirm(db, signedIn(request).firmId, async (tx) => {
      const today = await todayOfFirm(tx, now());
      if (id !== undefined) return personHours(tx, id, today);
      return { ...(await hoursOf(tx, today)), person: undefined };
    });
    const holidays = "holidays" in kept ? kept.holidays : null;
    const typed = failed?.typed ?? {
      ...typedFrom(kept.week),
      ...{ version: String(kept.version), country: holidays?.country ?? "" },
      region: holidays?.region ?? "",
    };
    const title = person
      ? say(language, "workingHours.of", { name: person.name })
      : say(language, "workingHours.ofFirm");
    return sendPage(request, reply, "working-hours-form", {
      ...{ title, typed, whose: person, styles: ["registry", "hours"], problems: failed?.problems },
      ...{ isOwn: "isOwn" in kept && kept.isOwn, total: shownWeek(kept.week, language).total },
      next: kept.next && nextTold(kept.next, language),
      days: rowsOf(typed, language, ONE_PART),
      ...(person ? {} : placeChoices(typed.country, language)),
    });
  };

  app.get("/working-hours/firm", {
    schema: { operationId: "firmHoursPage", hide: true },
    handler: async (request, reply) => showForm(request, reply, undefined),
  });

  app.post("/working-hours/firm", {
    schema: { operationId: "firmHoursForm", hide: true, body: Fields },
    handler: async (request, reply) => {
      const { version, own: _own, ...fields } = request.body;
      const typed = { ...fields, version: String(version) };
      const { country, region } = fields;
      const named = namedHours(fields, ONE_PART);
      const again = (problems: readonly string[]) =>
        showForm(request, reply.code(422), undefined, { typed, problems });
      const read = WorkingHoursInput.safeParse({
        week: named,
        ...(fields.validFrom ? { validFrom: fields.validFrom } : {}),
        holidays: country ? { country, region: region || null } : null,
      });
      if (!read.success) return again(weekProblems(read.error.issues, named, request.language));
      try {
        await inFirmAs(db, signedIn(request), async (tx) =>
          putWorkingHours(tx, version, read.data, await todayOfFirm(tx, now())),
        );
      } catch (error) {
        return again(Object.values(refusedFields(error)));
      }
      return reply.redirect("/working-hours?saved=1", 303);
    },
  });

  app.get("/working-hours/people/:id", {
    schema: { operationId: "personHoursPage", hide: true, params: IdParams },
    handler: async (request, reply) => showForm(request, reply, request.params.id),
  });

  app.post("/working-hours/people/:id", {
    schema: { operationId: "personHoursForm", hide: true, params: IdParams, body: Fields },
    handler: async (request, reply) => {
      const { version, own, ...fields } = request.body;
      const { id } = request.params;
      const typed = { ...fields, version: String(version) };
      const named = namedHours(fields, ONE_PART);
      const again = (problems: readonly string[]) =>
        showForm(request, reply.code(422), id, { typed, problems });
      const read = PersonWeekInput.safeParse({
        week: own ? named : null,
        ...(fields.validFrom ? { validFrom: fields.validFrom } : {}),
      });
      if (!read.success) return again(weekProblems(read.error.issues, named, request.language));
      try {
        await inFirmAs(db, signedIn(request), async (tx) => {
          const today = await todayOfFirm(tx, now());
          return putPersonHours(tx, { id, version, today }, read.data);
        });
      } catch (error) {
        return again(Object.values(refusedFields(error)));
      }
      return reply.redirect("/working-hours?saved=1", 303);
    },
  });
};
