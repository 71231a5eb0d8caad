// Server-rendered pages: Handlebars templates, everything escaped, no inline script or style.
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import fastifyStatic from "@fastify/static";
import type { FastifyReply, FastifyRequest } from "fastify";
import type { MessageKey } from "../language/catalogue.ts";
import { say } from "../language/say.ts";
import { retell } from "../language/sentences/retell.ts";
import { auditLine } from "./audit-line.ts";
import type { App } from "./feature.ts";
import { acceptForms } from "./forms.ts";
import { readLanguage } from "./language.ts";
import type { ProblemBody } from "./problem.ts";
import type { Role } from "./roles.ts";
import { renderPage, TEMPLATES } from "./templates.ts";

export interface PageData {
  title: string;
  /** Names of files in templates/assets, without their ending, that this page alone needs. */
  styles?: readonly string[];
  scripts?: readonly string[];
  [name: string]: unknown;
}

export const GROUPS = ["work", "places", "fleet", "record", "firm"] as const;

/** A link of the menu; without roles, everybody who is signed in sees it. */
export interface NavigationLink {
  href: string;
  key: MessageKey;
  group: (typeof GROUPS)[number];
  roles?: readonly Role[];
}

/** A link beside those that every page has, with how many things wait behind it. */
export interface ExtraLink {
  href: string;
  text: string;
  count: number;
}

declare module "fastify" {
  interface FastifyRequest {
    extraLinks?: readonly ExtraLink[];
  }
  interface FastifyInstance {
    navigation: readonly NavigationLink[];
  }
}

/** What every page stands on: its language, the menu, forms and the files it loads. */
export async function preparePages(app: App, navigation: readonly NavigationLink[]): Promise<void> {
  readLanguage(app);
  app.decorate("navigation", navigation);
  acceptForms(app);
  await serveAssets(app);
}

/** Renders templates/pages/<name>.hbs inside the frame that every page shares. */
export function sendPage(
  request: FastifyRequest,
  reply: FastifyReply,
  name: string,
  data: PageData,
): FastifyReply {
  const { session, language } = request;
  const path = request.url.split("?")[0] ?? "/";
  const html = renderPage(name, language, {
    ...data,
    path,
    extraLinks: request.extraLinks,
    auditLine: session?.audit && auditLine(session.audit, language),
    menu: session ? menuOf(request, path) : undefined,
    person: session
      ? {
          name: session.name,
          roles: session.roles.join(", "),
          roleNames: session.roles.map((role) => say(language, `role.${role}`)).join(", "),
        }
      : undefined,
  });
  return reply
    .type("text/html; charset=utf-8")
    .header("cache-control", "no-store")
    .header("content-language", language)
    .serializer((text: string) => text)
    .send(html);
}

function menuOf({ server, session, language }: FastifyRequest, path: string) {
  const links = server.navigation.filter(
    ({ roles }) => !roles || session?.roles.some((role) => roles.includes(role)),
  );
  // Of several that lead towards the page the nearest one is where it belongs.
  const here = links
    .map(({ href }) => href)
    .filter((href) => path === href || path.startsWith(`${href}/`))
    .toSorted((left, right) => right.length - left.length)[0];
  return GROUPS.flatMap((group) => {
    const inGroup = links.filter((link) => link.group === group);
    if (inGroup.length === 0) return [];
    return {
      name: say(language, `frame.group.${group}`),
      links: inGroup.map(({ href, key }) => ({
        href,
        text: say(language, key),
        current: href === here,
      })),
    };
  });
}

/** A refusal as a page: the way out first, the sign-in page where that is the way out. */
export function problemPage(
  request: FastifyRequest,
  reply: FastifyReply,
  body: ProblemBody,
): FastifyReply {
  if (body.type === "/problems/not-signed-in" && request.method === "GET") {
    return reply.redirect(`/sign-in?next=${encodeURIComponent(request.url)}`, 303);
  }
  if (body.type === "/problems/second-step-missing") {
    return reply.redirect("/account/two-step", 303);
  }
  const title = retell(request.language, body.title);
  return sendPage(request, reply, "problem", { ...body, title });
}

async function serveAssets(app: App): Promise<void> {
  await app.register(fastifyStatic, {
    root: join(fileURLToPath(TEMPLATES), "assets"),
    prefix: "/assets/",
    maxAge: "1h",
    decorateReply: false,
  });
}

/** An address inside this service to go on to; anything else falls back to the first page. */
export function localPath(text: string | undefined): string {
  return text !== undefined && /^\/(?![/\\])[\x21-\x7e]*$/.test(text) ? text : "/";
}
