// Who may do what, read off one visible table. A route that the table does not name stops the
// start.
import type { FastifyInstance, FastifyRequest } from "fastify";
import { Problem } from "../errors.ts";
import type { Role } from "./roles.ts";
import { signedIn } from "./session.ts";

/** "anyone" needs no sign-in, "everyone" is any signed-in person of the firm. */
export type AccessRule = "anyone" | "everyone" | readonly Role[];

declare module "fastify" {
  interface FastifySchema {
    operationId?: string;
    summary?: string;
    description?: string;
    tags?: readonly string[];
    hide?: boolean;
    security?: readonly Record<string, readonly string[]>[];
  }
}

/**
 * @param table rule by operation
 * @param prefixes operation by path, for the routes that a library adds by itself
 */
export function guardRoutes(
  app: FastifyInstance,
  table: Record<string, AccessRule>,
  prefixes: Record<string, string>,
): void {
  const seen = new Set<string>();
  app.addHook("onRoute", (route) => {
    const prefix = Object.keys(prefixes).find((start) => route.url.startsWith(start));
    const name = route.schema?.operationId ?? (prefix ? prefixes[prefix] : undefined);
    const rule = name === undefined ? undefined : table[name];
    if (name === undefined || rule === undefined) {
      throw new Error(
        `${route.method} ${route.url} has no rule in src/access.ts (operation ${name ?? "unnamed"})`,
      );
    }
    seen.add(name);
    if (rule === "anyone") return;
    const check = async (request: FastifyRequest): Promise<void> => requireRule(request, rule);
    const existing = route.onRequest;
    route.onRequest = [check, ...(Array.isArray(existing) ? existing : existing ? [existing] : [])];
  });
  app.addHook("onReady", async () => {
    const unused = Object.keys(table).filter((name) => !seen.has(name));
    if (unused.length > 0)
      throw new Error(`src/access.ts names operations that no route has: ${unused.join(", ")}`);
  });
}

function requireRule(request: FastifyRequest, rule: Exclude<AccessRule, "anyone">): void {
  signedIn(request);
  if (rule === "everyone") return;
  const { roles } = signedIn(request);
  if (!rule.some((role) => roles.includes(role))) {
    throw new Problem(
      "not-allowed",
      `This takes the role ${rule.join(" or ")}; yours is ${roles.join(", ")}.`,
      {
        roles: rule,
      },
    );
  }
}
