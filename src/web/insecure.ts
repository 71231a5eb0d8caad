import type { FastifyRequest } from "fastify";

/**
 * A __Host- cookie needs TLS, or this very machine; elsewhere a sign-in would silently not hold.
 */
export function isInsecure(
  { protocol, hostname }: Pick<FastifyRequest, "protocol" | "hostname">,
  publicUrl: string | undefined,
): boolean {
  if (protocol === "https" || publicUrl?.startsWith("https:")) return false;
  return !/^(localhost|127\.[\d.]+|\[::1\])$/.test(hostname);
}
