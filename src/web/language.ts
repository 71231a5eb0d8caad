import type { FastifyInstance, FastifyRequest } from "fastify";
import {
  type Language,
  languageAskedFor,
  PSEUDO,
  type ShownLanguage,
} from "../language/languages.ts";

declare module "fastify" {
  interface FastifyRequest {
    /** The language of the pages: the person's own, or what the browser asks for. */
    language: ShownLanguage;
  }
}

export function readLanguage(app: FastifyInstance): void {
  app.decorateRequest("language", {
    getter(this: FastifyRequest): ShownLanguage {
      const asked = languageAskedFor(this.headers["accept-language"]);
      if (asked === PSEUDO) return PSEUDO;
      return this.session?.language ?? asked ?? "en";
    },
  });
}

/** This reply is in the language that was chosen for it, whatever the browser asks for. */
export function answerIn(request: FastifyRequest, language: Language): void {
  if (request.language === PSEUDO) return;
  Object.defineProperty(request, "language", { value: language });
}
