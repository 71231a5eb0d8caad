import type { FastifyReply, FastifyRequest } from "fastify";
import { Problem } from "../../errors.ts";
import { say } from "../../language/say.ts";
import { sendPage } from "../../web/page.ts";

/** Leads to where the work says, or says why it was refused and leads back to `page`. */
export async function orRefusal(
  request: FastifyRequest,
  reply: FastifyReply,
  page: string,
  work: () => Promise<string>,
): Promise<FastifyReply> {
  try {
    return reply.redirect(await work(), 303);
  } catch (error) {
    return sayRefusal(request, reply, page, error);
  }
}

/** Says why, and leads back to `page`; anything that is no refusal is thrown on. */
export function sayRefusal(
  request: FastifyRequest,
  reply: FastifyReply,
  page: string,
  error: unknown,
): FastifyReply {
  if (!(error instanceof Problem) || ![409, 412, 422].includes(error.status)) throw error;
  const title = say(request.language, "registry.refused");
  const reasons = (error.extras.reasons ?? []) as readonly unknown[];
  return sendPage(request, reply.code(error.status), "refused", {
    ...{ title, page, sentence: error.message },
    reasons: reasons.filter((reason) => typeof reason === "string"),
  });
}
