import type { FastifyRequest } from "fastify";
import { z } from "zod";
import { inFirm } from "../../db/scope.ts";
import { NOTICE_WISHES } from "../../domain/firmware/digest.ts";
import { plainDay } from "../../language/moments.ts";
import { say } from "../../language/say.ts";
import type { Feature } from "../../web/feature.ts";
import { listView } from "../../web/list-view.ts";
import { sendPage } from "../../web/page.ts";
import { afterId } from "../../web/paging.ts";
import { signedIn } from "../../web/session.ts";
import { findPerson } from "../people/store.ts";
import { countUnseen, markSeen, ownNotices, setWish } from "./store.ts";

const A_PAGE = 20;
const PageQuery = z.object({ cursor: z.string().max(200).optional() });
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

  app.get("/notices", {
    schema: { operationId: "noticesPage", hide: true, querystring: PageQuery },
    handler: async (request, reply) => {
      const { language } = request;
      const { firmId, personId, roles } = signedIn(request);
      const { cursor } = request.query;
      const before = afterId(cursor);
      const { rows, person } = await inFirm(db, firmId, async (tx) => {
        const found = await ownNotices(tx, personId, {
          most: A_PAGE + 1,
          ...(before ? { before } : {}),
        });
        await markSeen(
          tx,
          found.slice(0, A_PAGE).map(({ id }) => id),
          now(),
        );
        return { rows: found, person: await findPerson(tx, personId) };
      });
      const notices = rows.slice(0, A_PAGE);
      const last = rows.length > A_PAGE ? notices.at(-1) : undefined;
      return sendPage(request, reply, "notices", {
        title: say(language, "notice.pageTitle"),
        mayTakeAll: roles.some((role) => role !== "installer"),
        notices: notices.map(({ id, day, subject, body, seenAt, mail }) => ({
          ...{ id, subject, body, isNew: seenAt === null, mailState: mail?.state },
          day: plainDay(language, day.toISOString().slice(0, 10)),
        })),
        wishes: NOTICE_WISHES.map((value) => ({
          ...{ value, text: say(language, `notice.wish.${value}`) },
          chosen: person?.firmwareNotices === value,
        })),
        list: listView({
          ...{ path: "/notices", filters: {}, cursor },
          next: last ? Buffer.from(last.id).toString("base64url") : null,
        }),
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

const seesNavigation = (request: FastifyRequest): boolean =>
  request.method === "GET" &&
  request.session !== null &&
  !request.url.startsWith("/api/") &&
  !request.url.startsWith("/notices") &&
  (request.headers.accept ?? "").includes("text/html");
