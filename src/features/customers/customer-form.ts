import type { FastifyReply, FastifyRequest } from "fastify";
import { LANGUAGE_NAMES, LANGUAGES } from "../../language/languages.ts";
import { say } from "../../language/say.ts";
import type { FieldProblems, FormBody } from "../../web/form.ts";
import { sendPage } from "../../web/page.ts";

export interface ShownForm {
  id?: string;
  reference?: string;
  typed: FormBody;
  problems?: FieldProblems;
}

export function showForm(request: FastifyRequest, reply: FastifyReply, shown: ShownForm) {
  return sendPage(request, reply, "customer-form", {
    title: shown.reference ?? say(request.language, "registry.newCustomer"),
    ...shown,
    languages: LANGUAGES.map((value) => ({ value, text: LANGUAGE_NAMES[value] })),
  });
}
