import { z } from "zod";
import { inFirm } from "../../db/scope.ts";
import { dayAndTime } from "../../language/moments.ts";
import { say } from "../../language/say.ts";
import type { Feature } from "../../web/feature.ts";
import { readForm } from "../../web/form.ts";
import { sendPage } from "../../web/page.ts";
import { signedIn } from "../../web/session.ts";
import { A_PAGE, sortedPage, sortedQuery, sortingOf } from "../../web/sorted-list.ts";
import { readFirm } from "../firms/store.ts";
import { LookQuery } from "./schemas.ts";
import { COLUMNS, sortedLooks } from "./sorted-store.ts";
import { lookers } from "./store.ts";

const PATH = "/audit-looks";
const USUAL = "-when";
const PEOPLE_MOST = 200;
const Typed = z.object({
  ...sortedQuery(COLUMNS),
  personId: z.string().max(200).optional(),
  day: z.string().max(200).optional(),
});
const Filter = LookQuery.pick({ personId: true, day: true });

/** What auditors looked at, for owner and manager. */
export const auditLookPages: Feature = async (app, { db }) => {
  app.get("/audit-looks", {
    schema: { operationId: "auditLooksPage", hide: true, querystring: Typed },
    handler: async (request, reply) => {
      const { language } = request;
      const { sort, cursor, ...typed } = request.query;
      const read = readForm(Filter, typed);
      if (!read.ok) reply.code(422);
      const filter = read.ok ? read.value : {};
      const sorting = sortingOf({ sort, cursor }, USUAL);
      const found = await inFirm(db, signedIn(request).firmId, async (tx) => ({
        looks: await sortedLooks(tx, { ...filter, sorting, most: A_PAGE + 1 }),
        people: await lookers(tx, PEOPLE_MOST),
        timeZone: (await readFirm(tx)).timeZone,
      }));
      const { rows, list } = sortedPage(found.looks, {
        ...{ path: PATH, columns: COLUMNS, usual: USUAL, query: { sort, cursor, ...filter } },
        exportPath: "/api/v1/exports/audit-looks.csv",
      });
      return sendPage(request, reply, "audit-looks", {
        title: say(language, "looks.title"),
        ...{ typed, problems: read.ok ? undefined : read.problems },
        people: found.people.map(({ id, name }) => ({ value: id, text: name })),
        isFiltered: Object.keys(filter).length > 0,
        looks: rows.map((look) => ({
          ...look,
          when: dayAndTime(language, new Date(look.at), found.timeZone),
        })),
        list,
      });
    },
  });
};
