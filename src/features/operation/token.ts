import { createHash, timingSafeEqual } from "node:crypto";
import type { FastifyRequest } from "fastify";
import type { Config } from "../../config.ts";
import { notFound, Problem } from "../../errors.ts";
import { slowGuesses } from "../../web/slow-down.ts";

const WRONG_A_MINUTE = 10;

/** One for every door that METRICS_TOKEN opens, so that a guess at one counts at all of them. */
export interface TokenGuard {
  requireBearer(request: FastifyRequest): void;
  requireTyped(request: FastifyRequest, typed: string): void;
}

/**
 * Only whoever has the token reads the figures, and without a token there are none: behind a proxy
 * on the same machine everybody comes from this machine, so an address would prove nothing.
 */
export function tokenGuard({ METRICS_TOKEN }: Config, now: () => Date): TokenGuard {
  const guesses = slowGuesses(WRONG_A_MINUTE);
  const require = ({ ip }: FastifyRequest, given: string | undefined, refusal: string): void => {
    if (METRICS_TOKEN === undefined) throw notFound("address");
    const at = now().getTime();
    guesses.refuse(ip, at);
    if (given !== undefined && isSame(given, METRICS_TOKEN)) return;
    // Whoever sends none guesses nothing.
    if (given !== undefined) guesses.noteWrong(ip, at);
    throw new Problem("not-signed-in", refusal);
  };
  return {
    requireBearer: (request) => {
      const given = /^Bearer (.+)$/i.exec(request.headers.authorization ?? "")?.[1];
      require(request, given, "Send METRICS_TOKEN as bearer.");
    },
    requireTyped: (request, typed) => {
      require(request, typed === "" ? undefined : typed, "This is not the token of this service.");
    },
  };
}

export const isSame = (left: string, right: string): boolean =>
  timingSafeEqual(hashOf(left), hashOf(right));

const hashOf = (text: string): Buffer => createHash("sha256").update(text).digest();
