import type { FastifyReply } from "fastify";
import type { MadePaper } from "./make-paper.ts";

/** Shown by the browser itself, under a name to save it by. */
export const sendPdf = (reply: FastifyReply, { fileName, pdf }: MadePaper) =>
  reply
    .type("application/pdf")
    .header("content-disposition", `inline; filename="${fileName}"`)
    .header("cache-control", "private, no-store")
    .send(pdf as never);
