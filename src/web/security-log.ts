// What an operator looks for after an incident: who signed in and out, what was refused to whom.
import type { FastifyRequest } from "fastify";
import type { Problem } from "../errors.ts";

interface Who {
  firmId: string;
  personId: string;
  sessionId: string;
}

export function logSession(
  request: FastifyRequest,
  event: "signed in" | "signed out" | "signed out everywhere",
  { firmId, personId, sessionId }: Who,
): void {
  request.log.info({ firmId, personId, sessionId, ip: request.ip }, event);
}

/** Nothing of what was typed: the request's own line has its address. */
export function logRefusal(request: FastifyRequest, { code }: Problem): void {
  const { session } = request;
  const who = session
    ? { firmId: session.firmId, personId: session.personId, sessionId: session.sessionId }
    : {};
  request.log.info({ problem: code, ...who, ip: request.ip }, "refused");
}
