import type { FastifyReply, FastifyRequest } from "fastify";
import type { BundleFile } from "./bundle-file.ts";
import { matchesETag } from "./etag-match.ts";

const A_YEAR_S = 31_536_000;

/** Sends a file of a bundle, packed where the browser takes it so. */
export function sendBundled(
  request: FastifyRequest,
  reply: FastifyReply,
  file: BundleFile,
  contentPolicy: string,
): FastifyReply {
  const age = file.caching === "immutable" ? `public, max-age=${A_YEAR_S}, immutable` : "no-cache";
  reply
    .header("cache-control", age)
    .header("etag", file.etag)
    .header("vary", "accept-encoding")
    .header("content-security-policy", contentPolicy);
  if (matchesETag(request, file.etag)) return reply.code(304).send();
  const packed = acceptsGzip(request) ? file.packed : undefined;
  if (packed) reply.header("content-encoding", "gzip");
  return reply.type(file.mediaType).send(packed ?? file.bytes);
}

const acceptsGzip = (request: FastifyRequest): boolean =>
  /(?:^|,)\s*gzip\s*(?:,|;(?!\s*q=0(?:\.0*)?\s*(?:,|$))|$)/.test(
    String(request.headers["accept-encoding"] ?? ""),
  );
