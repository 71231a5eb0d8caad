// Under every schema lies one net: no text of a request, and no name in free JSON, holds what could
// not be kept or would not come out again. Fields say more of themselves; forms of pages rest on
// their fields alone, so that a form is shown again with what was typed.
import type { FastifyInstance, FastifyRequest } from "fastify";
import { pointerOf } from "../domain/plan/problem.ts";
import { faultsInJson } from "../domain/texts/faults-in-json.ts";
import { type FieldError, Problem } from "../errors.ts";

declare module "fastify" {
  interface FastifyContextConfig {
    /** Its handler looks at the texts, part by part. */
    textsByPart?: boolean;
  }
}

const FORMS = ["application/x-www-form-urlencoded", "multipart/form-data"];

export function refuseBrokenTexts(app: FastifyInstance): void {
  app.addHook("preHandler", async (request) => {
    if (request.routeOptions.config.textsByPart) return;
    const errors = [
      ...(isForm(request) ? [] : faultsOf("body", request.body)),
      ...(request.url.startsWith("/api/") ? faultsOf("query", request.query) : []),
    ];
    if (errors.length === 0) return;
    const places = errors.map(({ pointer, detail }) => `${pointer}: ${detail}`).slice(0, 3);
    throw new Problem("invalid-input", places.join("; "), { errors });
  });
}

const isForm = ({ headers }: FastifyRequest): boolean =>
  FORMS.some((type) => headers["content-type"]?.startsWith(type));

const faultsOf = (part: string, json: unknown): FieldError[] =>
  faultsInJson(json, () => "many").map(({ path, fault }) => ({
    pointer: pointerOf([part, ...path]),
    detail: fault,
  }));
