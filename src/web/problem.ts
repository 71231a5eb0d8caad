// Every refusal leaves as RFC 9457 problem+json, or as a page where a browser asked for one.
import type { FastifyError, FastifyInstance, FastifyReply, FastifyRequest } from "fastify";
import {
  hasZodFastifySchemaValidationErrors,
  isResponseSerializationError,
} from "fastify-type-provider-zod";
import {
  type FieldError,
  PROBLEMS,
  Problem,
  type ProblemCode,
  RepeatedProblem,
} from "../errors.ts";
import { databaseProblem } from "./database-problem.ts";
import { logRefusal } from "./security-log.ts";

export interface ProblemBody {
  type: string;
  title: string;
  status: number;
  detail: string;
  instance: string;
  [extra: string]: unknown;
}

export type ProblemPage = (
  request: FastifyRequest,
  reply: FastifyReply,
  body: ProblemBody,
) => unknown;

const PLACES: Record<string, string> = {
  body: "body",
  querystring: "query",
  params: "params",
  headers: "headers",
};

const CODES_BY_STATUS: Record<number, ProblemCode> = {
  400: "unreadable-body",
  413: "body-too-large",
  415: "unsupported-type",
  503: "busy",
};

export function handleProblems(app: FastifyInstance, page: ProblemPage): void {
  app.setErrorHandler((error: FastifyError, request, reply) => {
    const problem = toProblem(error, request);
    if (problem instanceof RepeatedProblem) return send(problem, request, reply, page);
    if (problem.status >= 500) request.log.error({ err: error }, "request failed");
    else logRefusal(request, problem);
    return send(problem, request, reply, page);
  });
  app.setNotFoundHandler((request, reply) =>
    send(new Problem("not-found", "There is nothing at this address."), request, reply, page),
  );
}

function send(
  problem: Problem,
  request: FastifyRequest,
  reply: FastifyReply,
  page: ProblemPage,
): unknown {
  const body: ProblemBody = {
    type: `/problems/${problem.code}`,
    title: PROBLEMS[problem.code].title,
    status: problem.status,
    detail: problem.message,
    instance: request.id,
    ...problem.extras,
  };
  reply.code(problem.status).header("cache-control", "no-store");
  if (typeof problem.extras.retryAfterS === "number") {
    reply.header("retry-after", String(problem.extras.retryAfterS));
  }
  if (problem.status === 401) reply.header("www-authenticate", "Bearer");
  if (wantsPage(request)) return page(request, reply, body);
  // Past any response schema of the route: a refusal is the same shape everywhere.
  return reply
    .type("application/problem+json")
    .serializer((value: unknown) => JSON.stringify(value))
    .send(body);
}

const wantsPage = (request: FastifyRequest): boolean =>
  !request.url.startsWith("/api/") && (request.headers.accept ?? "").includes("text/html");

function toProblem(error: FastifyError, request: FastifyRequest): Problem {
  if (error instanceof Problem) return error;
  if (hasZodFastifySchemaValidationErrors(error)) {
    const errors = error.validation.map(
      (issue): FieldError => ({
        pointer:
          `/${PLACES[error.validationContext ?? "body"] ?? "body"}${issue.instancePath}`.replace(
            /\/$/,
            "",
          ),
        detail: issue.message ?? "is not valid",
      }),
    );
    const places = errors.map((entry) => `${entry.pointer}: ${entry.detail}`).slice(0, 3);
    return new Problem("invalid-input", places.join("; "), { errors });
  }
  if (isResponseSerializationError(error)) return internal(request);
  const fromDatabase = databaseProblem(error);
  if (fromDatabase) return fromDatabase;
  const code = CODES_BY_STATUS[error.statusCode ?? 500];
  if (code) return new Problem(code, PROBLEMS[code].wayOut);
  if ((error.statusCode ?? 500) < 500) return new Problem("unreadable-body", error.message);
  return internal(request);
}

const internal = (request: FastifyRequest): Problem =>
  new Problem("internal", `The request ${request.id} failed. Nothing of it was stored.`);
