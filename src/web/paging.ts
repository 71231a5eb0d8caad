import type { FastifyReply, FastifyRequest } from "fastify";
import { z } from "zod";
import { invalid } from "../errors.ts";

/** Query of every list. Ids are UUIDv7, so their order is the order of creation. */
export const PAGE_QUERY = {
  limit: z.coerce.number().int().min(1).max(200).default(50).describe("rows a page, 1 to 200"),
  cursor: z
    .string()
    .max(200)
    .optional()
    .describe("where the last page ended; take it from the Link header"),
};

export interface Page<Row> {
  items: Row[];
  next: string | null;
}

export const pageOf = <Item extends z.ZodType>(item: Item) =>
  z.object({
    items: z.array(item),
    next: z.string().nullable().describe("cursor of the next page, null on the last"),
  });

/** The id after which the page starts. */
export function afterId(cursor: string | undefined): string | undefined {
  if (cursor === undefined) return undefined;
  const id = Buffer.from(cursor, "base64url").toString("utf8");
  if (!z.guid().safeParse(id).success)
    throw invalid("/query/cursor", "is not a cursor of this list");
  return id;
}

/** The text after which the page starts, for lists that are in the order of a short text. */
export function afterText(cursor: string | undefined): string | undefined {
  if (cursor === undefined) return undefined;
  const text = Buffer.from(cursor, "base64url").toString("utf8");
  if (!/^[\x21-\x7e]{1,100}$/.test(text)) {
    throw invalid("/query/cursor", "is not a cursor of this list");
  }
  return text;
}

/** Takes `limit + 1` rows and makes a page of `limit`, with its RFC 8288 link. */
export function toPage<Row>(
  request: FastifyRequest,
  reply: FastifyReply,
  rows: Row[],
  limit: number,
  idOf: (row: Row) => string,
): Page<Row> {
  const items = rows.slice(0, limit);
  const last = items.at(-1);
  if (rows.length <= limit || last === undefined) return { items, next: null };
  const next = Buffer.from(idOf(last)).toString("base64url");
  const url = new URL(request.url, "http://here");
  url.searchParams.set("cursor", next);
  reply.header("link", `<${url.pathname}${url.search}>; rel="next"`);
  return { items, next };
}
