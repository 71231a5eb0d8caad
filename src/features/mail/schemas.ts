import { z } from "zod";
import { PAGE_QUERY, pageOf } from "../../web/paging.ts";

const STATES = ["waiting", "sent", "failed"] as const;

export const Mail = z
  .object({
    id: z.guid(),
    recipient: z.string(),
    subject: z.string(),
    textBody: z.string(),
    state: z.enum(STATES),
    attempts: z.number().int(),
    lastError: z.string().nullable().describe("why it still waits, or failed"),
    messageId: z.string().describe("the same at each attempt, so that a double can be told"),
    notBefore: z.iso.datetime({ offset: true }).describe("when a waiting mail is tried next"),
    createdAt: z.iso.datetime({ offset: true }),
    sentAt: z.iso.datetime({ offset: true }).nullable(),
  })
  .meta({ id: "Mail" });

export const MailPage = pageOf(Mail);
export const MailQuery = z.strictObject({ ...PAGE_QUERY, state: z.enum(STATES).optional() });
