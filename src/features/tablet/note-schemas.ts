// What a crew writes in its own words: a snag for the record, a message for whoever works on the
// job.
import { z } from "zod";

const text = (most: number) => z.string().trim().min(1).max(most);

export const SnagPayload = z
  .strictObject({ kind: z.literal("snag"), text: text(500) })
  .describe("a small thing to be put right later");

export const MessagePayload = z
  .strictObject({ kind: z.literal("message"), text: text(1000) })
  .describe("a message to whoever works on the job; talk, and no part of its record");

export const PacketMessage = z.object({
  id: z.guid().describe("of the operation that it was kept as, where it was"),
  number: z.number().int(),
  text: z.string(),
  personName: z.string(),
  fromTablet: z.boolean(),
  writtenAt: z.iso.datetime({ offset: true }),
});
