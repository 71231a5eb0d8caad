import { readFileSync } from "node:fs";
import swagger from "@fastify/swagger";
import swaggerUi from "@fastify/swagger-ui";
import { jsonSchemaTransform, jsonSchemaTransformObject } from "fastify-type-provider-zod";
import type { AccessRule } from "./access.ts";
import type { App } from "./feature.ts";
import { withoutUnused } from "./openapi-components.ts";
import { problems } from "./responses.ts";

const INFO = {
  title: "Holdpoint",
  version: "1.0.0",
  description: "Jobs, readings, verdicts and close-outs for firms that install home batteries.",
  license: { name: "MIT", identifier: "MIT" },
};

export async function describeApi(
  app: App,
  tags: { name: string; description: string }[],
  access: Access,
): Promise<void> {
  await app.register(swagger, {
    openapi: {
      openapi: "3.1.0",
      info: INFO,
      servers: [{ url: "/", description: "this server" }],
      security: [{ bearer: [] }, { cookie: [] }],
      tags,
      components: {
        securitySchemes: {
          bearer: { type: "http", scheme: "bearer", bearerFormat: "JWT" },
          cookie: { type: "apiKey", in: "cookie", name: "__Host-access" },
        },
      },
    },
    transform: (route) => forWhom(described(route), access),
    transformObject: (document) => withoutUnused(jsonSchemaTransformObject(document)),
  });
  app.get("/openapi.json", {
    schema: { operationId: "openApiDocument", hide: true },
    handler: async () => app.swagger(),
  });
  const mark = readFileSync(new URL("../../templates/assets/mark.svg", import.meta.url));
  await app.register(swaggerUi, {
    routePrefix: "/docs",
    staticCSP: true,
    uiConfig: { showExtensions: true },
    logo: { type: "image/svg+xml", content: mark, href: "/", target: "_self" },
    theme: { title: "Holdpoint: the interface" },
  });
}

interface Access {
  rules: Readonly<Record<string, AccessRule>>;
  scopes: Readonly<Record<string, readonly string[]>>;
}

/**
 * Who may send the fields of an operation's body and who is shown those of its reply: the roles,
 * "everyone" who is signed in or "anyone", and the scopes of a key.
 */
function forWhom({ schema, url }: Described, { rules, scopes }: Access): Described {
  const { operationId = "" } = schema as { operationId?: string };
  const rule = rules[operationId];
  if (rule === undefined) return { schema, url };
  const keys = Object.keys(scopes).filter((scope) => scopes[scope]?.includes(operationId));
  const marks = { "x-roles": rule, ...(keys.length > 0 ? { "x-key-scopes": keys } : {}) };
  return { schema: { ...schema, ...marks }, url };
}

type Route = Parameters<typeof jsonSchemaTransform>[0];

const described = (route: Route): Described =>
  underOwnName(jsonSchemaTransform(withBodyRefusals(route)));

/** Whatever takes a body refuses one that cannot be read, is too large or of another type. */
function withBodyRefusals(route: Route): Route {
  const { body, response } = route.schema as { body?: unknown; response?: object };
  if (body === undefined || !response) return route;
  const refusals = problems(400, 413, 415);
  return { ...route, schema: { ...route.schema, response: { ...refusals, ...response } } };
}

type Described = ReturnType<typeof jsonSchemaTransform>;

/** The library renames HEAD routes, as they mostly repeat a GET; ours stand for themselves. */
function underOwnName({ schema, url }: Described): Described {
  const { operationId } = schema as { operationId?: string };
  if (!operationId?.endsWith("-head")) return { schema, url };
  return { schema: { ...schema, operationId: operationId.replace(/-head$/, "") }, url };
}
