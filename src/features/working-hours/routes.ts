import { type FirmTransaction, inFirm } from "../../db/scope.ts";
import { USUAL_WEEK } from "../../domain/scheduling/work-week.ts";
import { notFound } from "../../errors.ts";
import { editedMeanwhile, matchedVersion, sendETag } from "../../web/etag.ts";
import type { Feature } from "../../web/feature.ts";
import { IdParams } from "../../web/fields.ts";
import { problems } from "../../web/responses.ts";
import { signedIn } from "../../web/session.ts";
import { readFirm } from "../firms/store.ts";
import { regionCode } from "../holidays/public-holidays.ts";
import { findPerson } from "../people/store.ts";
import { PersonWeek, PersonWeekInput, WorkingHours, WorkingHoursInput } from "./schemas.ts";
import { forgetWeek, readWeeks, UNWRITTEN, weekOf, writeHolidayPlace, writeWeek } from "./store.ts";

const TAGS = ["Working hours"];

export const workingHoursRoutes: Feature = async (app, { db }) => {
  app.get("/api/v1/working-hours", {
    schema: {
      operationId: "readWorkingHours",
      summary: "Read when the firm works, whose holidays it keeps, and who works other hours",
      tags: TAGS,
      response: { 200: WorkingHours, ...problems(401, 403) },
    },
    handler: async (request, reply) => {
      const hours = await inFirm(db, signedIn(request).firmId, hoursOf);
      sendETag(reply, hours.version);
      return hours;
    },
  });

  app.put("/api/v1/working-hours", {
    schema: {
      operationId: "putWorkingHours",
      summary: "Say when the firm works and whose holidays it keeps",
      description: "Visits that are booked already stay; the diary shows which lie outside.",
      tags: TAGS,
      body: WorkingHoursInput,
      response: { 200: WorkingHours, ...problems(401, 403, 412, 422, 428) },
    },
    handler: async (request, reply) => {
      const version = matchedVersion(request);
      const hours = await inFirm(db, signedIn(request).firmId, (tx) =>
        putWorkingHours(tx, version, request.body),
      );
      sendETag(reply, hours.version);
      return hours;
    },
  });

  app.get("/api/v1/people/:id/working-hours", {
    schema: {
      operationId: "readPersonHours",
      summary: "Read when a person works",
      tags: TAGS,
      params: IdParams,
      response: { 200: PersonWeek, ...problems(401, 403, 404, 422) },
    },
    handler: async (request, reply) => {
      const row = await inFirm(db, signedIn(request).firmId, (tx) =>
        personHours(tx, request.params.id),
      );
      sendETag(reply, row.version);
      return row;
    },
  });

  app.put("/api/v1/people/:id/working-hours", {
    schema: {
      operationId: "putPersonHours",
      summary: "Say when a person works, where that differs from the firm",
      tags: TAGS,
      params: IdParams,
      body: PersonWeekInput,
      response: { 200: PersonWeek, ...problems(401, 403, 404, 412, 422, 428) },
    },
    handler: async (request, reply) => {
      const version = matchedVersion(request);
      const { id } = request.params;
      const { week } = request.body;
      const row = await inFirm(db, signedIn(request).firmId, async (tx) => {
        await personHours(tx, id);
        const isDone = await (week
          ? writeWeek(tx, id, version, week)
          : forgetWeek(tx, id, version));
        if (!isDone) throw editedMeanwhile();
        return personHours(tx, id);
      });
      sendETag(reply, row.version);
      return row;
    },
  });
};

export async function putWorkingHours(
  tx: FirmTransaction,
  version: number,
  { week, holidays }: WorkingHoursInput,
) {
  if (!(await writeWeek(tx, null, version, week))) throw editedMeanwhile();
  const region = holidays?.region ?? null;
  const place = holidays && {
    country: holidays.country,
    region: region === null ? null : (regionCode(holidays.country, region) ?? null),
  };
  await writeHolidayPlace(tx, place);
  return hoursOf(tx);
}

async function hoursOf(tx: FirmTransaction) {
  const { holidayCountry: country, holidayRegion: region } = await readFirm(tx);
  const { firm, people } = await readWeeks(tx);
  return {
    week: [...(firm?.days ?? USUAL_WEEK)],
    isUsual: firm === undefined,
    holidays: country === null ? null : { country, region },
    people: [...people].map(([id, { name, days, version }]) => ({
      ...{ person: { id, name }, week: [...days], isOwn: true, version },
    })),
    version: firm?.version ?? UNWRITTEN,
  };
}

async function personHours(tx: FirmTransaction, id: string) {
  const person = await findPerson(tx, id);
  if (!person) throw notFound("person");
  const weeks = await readWeeks(tx);
  const own = weeks.people.get(id);
  return {
    person: { id, name: person.name },
    week: [...weekOf(weeks, id)],
    isOwn: own !== undefined,
    version: own?.version ?? UNWRITTEN,
  };
}
