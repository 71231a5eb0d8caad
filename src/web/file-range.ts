// A file, or the part of it that a reader still lacks (RFC 9110, 14): one range, which is all that
// a broken download needs.
import { createReadStream } from "node:fs";
import { stat } from "node:fs/promises";
import type { FastifyReply, FastifyRequest } from "fastify";

export interface ServedFile {
  path: string;
  mediaType: string;
  fileName: string;
  /** Strong: another content, another tag. */
  etag: string;
}

/** False where the file is not there. */
export async function sendFile(
  request: FastifyRequest,
  reply: FastifyReply,
  file: ServedFile,
): Promise<boolean> {
  const found = await stat(file.path).catch(() => undefined);
  if (!found) return false;
  const range = rangeOf(request, found.size, file.etag);
  reply
    .header("accept-ranges", "bytes")
    .header("etag", file.etag)
    .header("cache-control", "private, no-cache");
  if (range === "unsatisfiable") {
    reply.code(416).header("content-range", `bytes */${found.size}`).type("text/plain").send("");
    return true;
  }
  const { start, end } = range ?? { start: 0, end: found.size - 1 };
  if (range) reply.code(206).header("content-range", `bytes ${start}-${end}/${found.size}`);
  reply
    .header("content-length", end - start + 1)
    .header("content-disposition", `attachment; filename="${file.fileName}"`)
    .type(file.mediaType)
    .send(createReadStream(file.path, { start, end }));
  return true;
}

type Range = { start: number; end: number };

/** Undefined for the whole file: no range, several, or one of another version of it. */
function rangeOf(
  { headers }: FastifyRequest,
  size: number,
  etag: string,
): Range | "unsatisfiable" | undefined {
  const condition = headers["if-range"];
  if (condition !== undefined && condition !== etag) return undefined;
  const [, first = "", last = ""] = /^bytes=(\d*)-(\d*)$/.exec(headers.range ?? "") ?? [];
  if (first === "" && last === "") return undefined;
  const start = first === "" ? Math.max(0, size - Number(last)) : Number(first);
  const end = first === "" || last === "" ? size - 1 : Math.min(Number(last), size - 1);
  if (start >= size || (first === "" && Number(last) === 0)) return "unsatisfiable";
  return start > end ? undefined : { start, end };
}

/** Whether the reader begins at the first byte: what goes on later was begun before. */
export const beginsAtStart = ({ headers }: FastifyRequest): boolean =>
  headers.range === undefined || /^bytes=0-/.test(headers.range);
