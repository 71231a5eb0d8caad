import type { FastifyReply, FastifyRequest } from "fastify";
import { inFirm } from "../../db/scope.ts";
import { dayAndTime } from "../../language/moments.ts";
import { say } from "../../language/say.ts";
import type { Feature } from "../../web/feature.ts";
import { sendPage } from "../../web/page.ts";
import { signedIn } from "../../web/session.ts";
import { readFirm } from "../firms/store.ts";
import { endAddress, findAddress } from "./address-store.ts";
import { baseUrlOf, newAddress } from "./new-address.ts";

export const calendarPages: Feature = async (app, { db, config, now }) => {
  const show = async (request: FastifyRequest, reply: FastifyReply, url?: string) => {
    const { firmId, personId } = signedIn(request);
    const { language } = request;
    const found = await inFirm(db, firmId, async (tx) => ({
      row: await findAddress(tx, personId),
      timeZone: (await readFirm(tx)).timeZone,
    }));
    const moment = (time: Date | null | undefined) =>
      time ? dayAndTime(language, time, found.timeZone) : undefined;
    return sendPage(request, reply, "calendar", {
      title: say(language, "calendar.title"),
      url,
      exists: found.row !== null,
      made: moment(found.row?.createdAt),
      fetched: moment(found.row?.fetchedAt),
    });
  };

  app.get("/account/calendar", {
    schema: { operationId: "calendarPage", hide: true },
    handler: async (request, reply) => show(request, reply),
  });

  // The answer to the post shows the address: it is nowhere to be read again.
  app.post("/account/calendar", {
    schema: { operationId: "makeCalendarForm", hide: true },
    handler: async (request, reply) => {
      const { firmId, personId } = signedIn(request);
      const where = { now: now(), baseUrl: baseUrlOf(config, request) };
      const url = await inFirm(db, firmId, (tx) => newAddress(tx, personId, where));
      return show(request, reply, url);
    },
  });

  app.post("/account/calendar/end", {
    schema: { operationId: "endCalendarForm", hide: true },
    handler: async (request, reply) => {
      const { firmId, personId } = signedIn(request);
      await inFirm(db, firmId, (tx) => endAddress(tx, personId));
      return reply.redirect("/account/calendar", 303);
    },
  });
};
