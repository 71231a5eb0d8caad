import type { FastifyRequest } from "fastify";

const PATTERNS = ["/api/v1/exports/:list.csv", "/api/v1/exports/:list"];

/** Where a list is exported; nothing where this installation has no exports. */
export function exportPathOf({ server }: FastifyRequest, list: string): string | undefined {
  const path = `/api/v1/exports/${list}.csv`;
  return [path, ...PATTERNS].some((url) => server.hasRoute({ method: "GET", url }))
    ? path
    : undefined;
}
