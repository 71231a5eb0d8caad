import { createHash, timingSafeEqual } from "node:crypto";
import type { FastifyRequest } from "fastify";
import type { Config } from "../../config.ts";
import { notFound, Problem } from "../../errors.ts";

/**
 * Only whoever has the token reads the figures, and without a token there are none: behind a proxy
 * on the same machine everybody comes from this machine, so an address would prove nothing.
 */
export function requireToken({ METRICS_TOKEN }: Config, request: FastifyRequest): void {
  if (METRICS_TOKEN === undefined) throw notFound("address");
  if (!isSame(request.headers.authorization ?? "", `Bearer ${METRICS_TOKEN}`)) {
    throw new Problem("not-signed-in", "Send METRICS_TOKEN as bearer.");
  }
}

const isSame = (left: string, right: string): boolean =>
  timingSafeEqual(hashOf(left), hashOf(right));

const hashOf = (text: string): Buffer => createHash("sha256").update(text).digest();
