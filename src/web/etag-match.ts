import type { FastifyRequest } from "fastify";

/** Whether the sender has it already: If-None-Match, compared weakly (RFC 9110 13.1.2). */
export function matchesETag(request: FastifyRequest, etag: string): boolean {
  const header = request.headers["if-none-match"];
  if (header === undefined) return false;
  const tags = header.split(",").map((tag) => tag.trim().replace(/^W\//, ""));
  return tags.includes("*") || tags.includes(etag);
}
