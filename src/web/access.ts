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
  interface FastifyContextConfig {
    /** What is shown is the firm's, and not for whoever asks. */
    needsSignIn?: boolean;
    /** Nobody's session is looked at: it is not a firm's, and works without the database. */
    ignoresSession?: boolean;
  }
}

/** What can be done by somebody who has yet to set up the second step that the firm asks for. */
const ENROLLING = new Set([
  ...["readSession", "signOut", "signOutEverywhere", "signOutForm", "beginTwoStep"],
  ...["confirmTwoStep", "accountPage", "twoStepPage", "beginTwoStepForm", "confirmTwoStepForm"],
]);

/** What is left to an auditor whose access has ended. */
const LEAVING = new Set(["signOut", "signOutEverywhere", "signOutForm"]);

/**
 * @param table rule by operation
 * @param scopes operations by the scope of a key for programs
 * @param prefixes operation by path, for the routes that a library adds by itself
 */
export function guardRoutes(
  app: FastifyInstance,
  table: Record<string, AccessRule>,
  prefixes: Record<string, string>,
  scopes: Readonly<Record<string, readonly string[]>>,
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
    route.config = { ...route.config, needsSignIn: true };
    const check = async (request: FastifyRequest): Promise<void> => {
      const refusal = signedIn(request).audit?.refusal;
      if (refusal !== undefined && !LEAVING.has(name)) throw new Problem("access-ended", refusal);
      if (signedIn(request).mustEnrol && !ENROLLING.has(name)) {
        throw new Problem("second-step-missing", "Set up the second step of signing in first.");
      }
      if (signedIn(request).scopes) requireScope(request, name, scopes);
      else requireRule(request, rule);
    };
    const existing = route.onRequest;
    route.onRequest = [check, ...(Array.isArray(existing) ? existing : existing ? [existing] : [])];
  });
  app.addHook("onReady", async () => {
    const named = [...Object.keys(table), ...Object.values(scopes).flat()];
    const unused = named.filter((name) => !seen.has(name));
    if (unused.length > 0)
      throw new Error(`src/access.ts names operations that no route has: ${unused.join(", ")}`);
  });
}

/** A key opens what its scopes name, and nothing that its maker's roles would. */
function requireScope(
  request: FastifyRequest,
  operation: string,
  scopes: Readonly<Record<string, readonly string[]>>,
): void {
  const held = signedIn(request).scopes ?? [];
  if (held.some((scope) => scopes[scope]?.includes(operation))) return;
  const opening = Object.keys(scopes).filter((scope) => scopes[scope]?.includes(operation));
  const way = opening.length > 0 ? `needs the scope ${opening.join(" or ")}` : "is not for keys";
  throw new Problem("not-allowed", `This ${way}; the key has ${held.join(", ")}.`, {
    scopes: opening,
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
