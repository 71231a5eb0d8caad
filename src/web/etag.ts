import type { FastifyReply, FastifyRequest } from "fastify";
import { Problem } from "../errors.ts";

export function sendETag(reply: FastifyReply, version: number): void {
  reply.header("etag", `"${version}"`);
}

/**
 * The version an edit was made against. Without If-Match: 428; with one that is no version: 412.
 */
export function matchedVersion(request: FastifyRequest): number {
  const header = request.headers["if-match"];
  if (header === undefined) {
    throw new Problem("if-match-needed", "Send the ETag of what you read as If-Match.");
  }
  const version = /^"(\d{1,9})"$/.exec(header)?.[1];
  if (version === undefined) throw editedMeanwhile();
  return Number(version);
}

export const editedMeanwhile = (): Problem =>
  new Problem(
    "edited-meanwhile",
    "It was changed since you read it. Read it again and repeat the edit.",
  );
