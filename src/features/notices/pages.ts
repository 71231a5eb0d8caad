import type { FastifyRequest } from "fastify";
import { z } from "zod";
import { inFirm } from "../../db/scope.ts";
import { NOTICE_WISHES } from "../../domain/firmware/digest.ts";
import { plainDay } from "../../language/moments.ts";
import { say } from "../../language/say.ts";
import type { Feature } from "../../web/feature.ts";
import type { ListView } from "../../web/list-view.ts";
import { sendPage } from "../../web/page.ts";
import { signedIn } from "../../web/session.ts";
import { A_PAGE, asked, sortedPage, sortedQuery, sortingOf } from "../../web/sorted-list.ts";
import { findPerson } from "../people/store.ts";
import { NOTICE_COLUMNS, NOTICE_KINDS, sortedNotices } from "./sorted-store.ts";
import { countUnseen, markSeen, setWish } from "./store.ts";

const PATH = "/notices";
const USUAL = "-day";
const PageQuery = z.object({
  ...sortedQuery(NOTICE_COLUMNS),
  kind: asked(z.enum(NOTICE_KINDS)),
});
const WishForm = z.object({ wish: z.enum(NOTICE_WISHES) });

/** What a person was told, for those who do not look into their mail. */
export const noticePages: Feature = async (app, { db, now }) => {
  app.addHook("preHandler", async (request) => {
    if (!seesNavigation(request)) return;
    const { firmId, personId } = signedIn(request);
    const count = await inFirm(db, firmId, (tx) => countUnseen(tx, personId));
    if (count === 0) return;
    const link = { href: "/notices", text: say(request.language, "notice.link"), count };
    request.extraLinks = [...(request.extraLinks ?? []), link];
  });

  app.get(PATH, {
    schema: { operationId: "noticesPage", hide: true, querystring: PageQuery },
    handler: async (request, reply) => {
      const { language, query } = request;
      const { firmId, personId, roles } = signedIn(request);
      const { kind } = query;
      const filter = { kind, sorting: sortingOf(query, USUAL), most: A_PAGE + 1 };
      const { found, person } = await inFirm(db, firmId, async (tx) => {
        const rows = await sortedNotices(tx, personId, filter);
        const shown = rows.slice(0, A_PAGE).map(({ id }) => id);
        await markSeen(tx, shown, now());
        return { found: rows, person: await findPerson(tx, personId) };
      });
      const mayTakeAll = roles.some((role) => role !== "installer");
      const { rows, list } = sortedPage(found, {
        ...{ path: PATH, columns: NOTICE_COLUMNS, usual: USUAL, query },
        ...(mayTakeAll ? { exportPath: "/api/v1/exports/notices.csv" } : {}),
      });
      return sendPage(request, reply, "notices", {
        title: say(language, "notice.pageTitle"),
        ...{ mayTakeAll, list: ofPerson(list, personId), filtered: kind !== undefined },
        notices: rows.map((row) => ({
          ...row,
          day: plainDay(language, row.day),
          kindName: say(language, `notice.kind.${row.kind}`),
        })),
        kinds: NOTICE_KINDS.map((value) => ({
          ...{ value, text: say(language, `notice.kind.${value}`), chosen: value === kind },
        })),
        wishes: NOTICE_WISHES.map((value) => ({
          ...{ value, text: say(language, `notice.wish.${value}`) },
          chosen: person?.firmwareNotices === value,
        })),
      });
    },
  });

  app.post("/notices/wish", {
    schema: { operationId: "noticeWishForm", hide: true, body: WishForm },
    handler: async (request, reply) => {
      const { firmId, personId } = signedIn(request);
      await inFirm(db, firmId, (tx) => setWish(tx, personId, request.body.wish));
      return reply.redirect("/notices", 303);
    },
  });
};

/** The export is of all people's notices, the list of one's own. */
const ofPerson = (list: ListView, personId: string): ListView =>
  list.exported === undefined
    ? list
    : { ...list, exported: `${list.exported}&personId=${personId}` };

const seesNavigation = (request: FastifyRequest): boolean =>
  request.method === "GET" &&
  request.session !== null &&
  !request.url.startsWith("/api/") &&
  !request.url.startsWith("/notices") &&
  (request.headers.accept ?? "").includes("text/html");
