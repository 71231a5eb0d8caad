import { z } from "zod";
import { longText } from "../../web/fields.ts";
import { PAGE_QUERY, pageOf } from "../../web/paging.ts";

export const MESSAGE_TEXT_MOST = 2000;

export const NewMessage = z.strictObject({
  text: longText(MESSAGE_TEXT_MOST)
    .describe("for whoever works on the job; talk, and no part of its record")
    .meta({ examples: ["The customer leaves at two: start with the garage."] }),
});

export const Message = z
  .object({
    id: z.guid(),
    jobId: z.guid(),
    number: z.number().int().describe("place in the job's thread, from 1 without gaps"),
    text: z.string(),
    fromTablet: z.boolean().describe("written where there may have been no signal"),
    personId: z.guid(),
    personName: z.string(),
    writtenAt: z.iso.datetime({ offset: true }),
  })
  .meta({ id: "Message" });

export const MessagePage = pageOf(Message);
export const MessageQuery = z.strictObject({
  ...PAGE_QUERY,
  from: z.enum(["first", "last"]).default("first").describe("begin with the oldest or the newest"),
});

export const MessagesSeen = z.strictObject({
  through: z
    .number()
    .int()
    .min(0)
    .max(1_000_000)
    .describe("number of the last message that was read"),
});

export const MessageStanding = z
  .object({
    last: z.number().int().describe("number of the newest message, 0 when there is none"),
    through: z.number().int().describe("how far you have read"),
    unread: z.number().int().describe("by others, that you have not read"),
  })
  .meta({ id: "MessageStanding" });

export const UnreadList = z.object({
  items: z.array(
    z.object({
      jobId: z.guid(),
      jobReference: z.string(),
      title: z.string(),
      unread: z.number().int(),
      lastText: z.string().describe("of the newest one"),
      lastBy: z.string(),
    }),
  ),
  next: z.null(),
});
