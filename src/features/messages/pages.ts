import type { FastifyRequest } from "fastify";
import { inFirm } from "../../db/scope.ts";
import { say } from "../../language/say.ts";
import type { Feature } from "../../web/feature.ts";
import { sendPage } from "../../web/page.ts";
import { signedIn } from "../../web/session.ts";
import { countUnread, listUnread } from "./store.ts";

const JOBS_MOST = 100;

/** Where somebody wrote and the reader has not looked: in the menu, while there is any. */
export const messagePages: Feature = async (app, { db }) => {
  app.addHook("preHandler", async (request) => {
    if (!seesMenu(request)) return;
    const { firmId, personId } = signedIn(request);
    const count = await inFirm(db, firmId, (tx) => countUnread(tx, personId));
    if (count === 0) return;
    const text = say(request.language, "job.messages.unreadLink");
    request.extraLinks = [...(request.extraLinks ?? []), { href: "/messages", text, count }];
  });

  app.get("/messages", {
    schema: { operationId: "unreadMessagesPage", hide: true },
    handler: async (request, reply) => {
      const { firmId, personId } = signedIn(request);
      const jobs = await inFirm(db, firmId, (tx) => listUnread(tx, personId, JOBS_MOST));
      const title = say(request.language, "job.messages.unreadLink");
      return sendPage(request, reply, "messages", { title, jobs });
    },
  });
};

/** An auditor reads what was recorded, not what was said meanwhile. */
const seesMenu = (request: FastifyRequest): boolean =>
  request.method === "GET" &&
  !request.url.startsWith("/api/") &&
  (request.headers.accept ?? "").includes("text/html") &&
  (request.session?.roles.some((role) => role !== "auditor") ?? false);
