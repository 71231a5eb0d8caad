// Server-rendered pages: Handlebars templates, everything escaped, no inline script or style.
import { readdirSync, readFileSync } from "node:fs";
import { basename, join } from "node:path";
import { fileURLToPath } from "node:url";
import fastifyStatic from "@fastify/static";
import type { FastifyReply, FastifyRequest } from "fastify";
import Handlebars from "handlebars";
import type { App } from "./feature.ts";
import type { ProblemBody } from "./problem.ts";

const TEMPLATES = fileURLToPath(new URL("../../templates/", import.meta.url));

export interface PageData {
  title: string;
  [name: string]: unknown;
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
}

type Template = Handlebars.TemplateDelegate;

const engine = Handlebars.create();
engine.registerHelper("equal", (left: unknown, right: unknown) => left === right);
engine.registerHelper("holdsRole", (roles: string, ...wanted: unknown[]) =>
  roles.split(", ").some((role) => wanted.includes(role)),
);
engine.registerHelper("plural", (count: number, one: string, many: string) =>
  count === 1 ? `${count} ${one}` : `${count} ${many}`,
);

const templates = load("pages");
for (const [name, template] of load("parts")) engine.registerPartial(name, template);

function load(folder: string): Map<string, Template> {
  const files = readdirSync(join(TEMPLATES, folder)).filter((file) => file.endsWith(".hbs"));
  return new Map(
    files.map((file) => [
      basename(file, ".hbs"),
      engine.compile(readFileSync(join(TEMPLATES, folder, file), "utf8"), { strict: false }),
    ]),
  );
}

/** Renders templates/pages/<name>.hbs inside the frame that every page shares. */
export function sendPage(
  request: FastifyRequest,
  reply: FastifyReply,
  name: string,
  data: PageData,
): FastifyReply {
  const template = templates.get(name);
  if (!template) throw new Error(`there is no page template ${name}`);
  const { session } = request;
  const html = template({
    ...data,
    path: request.url.split("?")[0],
    extraLinks: request.extraLinks,
    person: session ? { name: session.name, roles: session.roles.join(", ") } : undefined,
  });
  return reply
    .type("text/html; charset=utf-8")
    .header("cache-control", "no-store")
    .serializer((text: string) => text)
    .send(html);
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
  return sendPage(request, reply, "problem", { ...body, title: body.title });
}

export async function serveAssets(app: App): Promise<void> {
  await app.register(fastifyStatic, {
    root: join(TEMPLATES, "assets"),
    prefix: "/assets/",
    maxAge: "1h",
    decorateReply: false,
  });
}

/** An address inside this service to go on to; anything else falls back to the first page. */
export function localPath(text: string | undefined): string {
  return text !== undefined && /^\/(?![/\\])[\x21-\x7e]*$/.test(text) ? text : "/";
}
