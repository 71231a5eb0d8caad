import type { FastifyReply, FastifyRequest } from "fastify";
import { z } from "zod";
import { inFirm } from "../../db/scope.ts";
import { isLanguage, LANGUAGE_NAMES, LANGUAGES } from "../../language/languages.ts";
import { say } from "../../language/say.ts";
import type { Feature } from "../../web/feature.ts";
import { type FieldProblems, type FormBody, readForm, refusedFields } from "../../web/form.ts";
import { sendPage } from "../../web/page.ts";
import { signedIn } from "../../web/session.ts";
import { isThereAFirm } from "../firms/store.ts";
import { openHere } from "../session/open-here.ts";
import { signIn } from "../session/sign-in.ts";
import { foundFirstFirm } from "./found-first-firm.ts";
import { StartForm } from "./schemas.ts";
import { isUnderWay, stepsOf } from "./steps.ts";
import { readBegun } from "./store.ts";

const LEADING = ["owner", "office"] as const;
const FormFields = z.record(z.string(), z.string().max(400));
const ZONES = Intl.supportedValuesOf("timeZone").map((zone) => ({ value: zone, text: zone }));

export const firstRunPages: Feature = async (app, context) => {
  const { db, config, now, setupCode } = context;
  app.get("/start", {
    schema: { operationId: "startPage", hide: true },
    handler: async (request, reply) => {
      if (await isThereAFirm(db)) return reply.redirect("/sign-in", 303);
      const language = isLanguage(request.language) ? request.language : "en";
      return showStart(request, reply, { language, unitSystem: "metric" });
    },
  });

  app.post("/start", {
    schema: { operationId: "startForm", hide: true, body: FormFields },
    handler: async (request, reply) => {
      if (await isThereAFirm(db)) return reply.redirect("/sign-in", 303);
      const { password = "", ...typed } = request.body;
      const read = readForm(StartForm, request.body);
      if (!read.ok) return showStart(request, reply.code(422), typed, read.problems);
      try {
        await foundFirstFirm(db, read.value, { setupCode, ip: request.ip });
      } catch (error) {
        return showStart(request, reply.code(422), typed, refusedFields(error));
      }
      const credentials = { email: read.value.email, password, ip: request.ip };
      const opened = await signIn(db, credentials, { dataFolder: config.dataFolder, now });
      await openHere(app, context, request, reply, opened);
      return reply.redirect("/begin", 303);
    },
  });

  app.get("/begin", {
    schema: { operationId: "beginPage", hide: true },
    handler: async (request, reply) => {
      const begun = await inFirm(db, signedIn(request).firmId, readBegun);
      const { language } = request;
      return sendPage(request, reply, "begin", {
        title: say(language, "begin.title"),
        underWay: isUnderWay(begun),
        steps: stepsOf(begun).map((step) => ({
          ...step,
          title: say(language, step.title),
          why: say(language, step.why),
        })),
      });
    },
  });

  app.addHook("preHandler", async (request) => {
    if (!seesNavigation(request)) return;
    const begun = await inFirm(db, signedIn(request).firmId, readBegun);
    if (isUnderWay(begun)) return;
    const left = stepsOf(begun).filter(({ done }) => !done).length;
    const link = { href: "/begin", text: say(request.language, "begin.link"), count: left };
    request.extraLinks = [...(request.extraLinks ?? []), link];
  });
};

const seesNavigation = (request: FastifyRequest): boolean =>
  request.method === "GET" &&
  !request.url.startsWith("/api/") &&
  (request.headers.accept ?? "").includes("text/html") &&
  LEADING.some((role) => request.session?.roles.includes(role));

function showStart(
  request: FastifyRequest,
  reply: FastifyReply,
  typed: FormBody,
  problems?: FieldProblems,
) {
  return sendPage(request, reply, "start", {
    title: say(request.language, "start.title"),
    ...{ typed, problems, zones: ZONES },
    languages: LANGUAGES.map((value) => ({ value, text: LANGUAGE_NAMES[value] })),
    systems: (["metric", "us"] as const).map((value) => ({
      value,
      text: say(request.language, `start.units.${value}`),
    })),
  });
}
