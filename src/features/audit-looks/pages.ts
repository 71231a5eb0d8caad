import { z } from "zod";
import { inFirm } from "../../db/scope.ts";
import { dayAndTime } from "../../language/moments.ts";
import { say } from "../../language/say.ts";
import type { Feature } from "../../web/feature.ts";
import { readForm } from "../../web/form.ts";
import { listView } from "../../web/list-view.ts";
import { sendPage } from "../../web/page.ts";
import { afterId } from "../../web/paging.ts";
import { signedIn } from "../../web/session.ts";
import { readFirm } from "../firms/store.ts";
import { readLooks } from "./read-looks.ts";
import { LookQuery } from "./schemas.ts";
import { lookers } from "./store.ts";

const A_PAGE = 50;
const PEOPLE_MOST = 200;
const Typed = z.record(z.string(), z.string().max(200));
const Filter = LookQuery.pick({ personId: true, day: true });

/** What auditors looked at, for owner and manager. */
export const auditLookPages: Feature = async (app, { db }) => {
  app.get("/audit-looks", {
    schema: { operationId: "auditLooksPage", hide: true, querystring: Typed },
    handler: async (request, reply) => {
      const { language } = request;
      const { cursor, ...typed } = request.query;
      const read = readForm(Filter, typed);
      if (!read.ok) reply.code(422);
      const filter = read.ok ? read.value : {};
      const page = { ...filter, before: afterId(cursor), most: A_PAGE + 1 };
      const found = await inFirm(db, signedIn(request).firmId, async (tx) => ({
        looks: await readLooks(tx, page),
        people: await lookers(tx, PEOPLE_MOST),
        timeZone: (await readFirm(tx)).timeZone,
      }));
      const shown = found.looks.slice(0, A_PAGE);
      const last = found.looks.length > A_PAGE ? shown.at(-1) : undefined;
      return sendPage(request, reply, "audit-looks", {
        title: say(language, "looks.title"),
        ...{ typed, problems: read.ok ? undefined : read.problems },
        people: found.people.map(({ id, name }) => ({ value: id, text: name })),
        isFiltered: Object.keys(filter).length > 0,
        looks: shown.map((look) => ({
          ...look,
          when: dayAndTime(language, new Date(look.at), found.timeZone),
        })),
        list: listView({
          ...{ path: "/audit-looks", filters: filter, cursor },
          exportPath: "/api/v1/exports/audit-looks.csv",
          next: last ? Buffer.from(last.id).toString("base64url") : null,
        }),
      });
    },
  });
};
