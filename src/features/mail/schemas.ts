import { z } from "zod";
import { shortText } from "../../web/fields.ts";
import { PAGE_QUERY, pageOf } from "../../web/paging.ts";
import { MAIL_STATES } from "./outbox-store.ts";
import { MAIL_KINDS } from "./store.ts";

const moment = () => z.iso.datetime({ offset: true });

export const Mail = z
  .object({
    id: z.guid(),
    kind: z.string().describe("what it is about"),
    recipient: z.string(),
    senderName: z.string().nullable(),
    replyTo: z.string().nullable(),
    subject: z.string(),
    textBody: z.string(),
    attachments: z.array(z.object({ name: z.string(), contentType: z.string() })),
    customerId: z.guid().nullable(),
    visitId: z.guid().nullable(),
    state: z
      .enum(MAIL_STATES)
      .describe("returned: a server took it and sent it back later, by a delivery report"),
    attempts: z.number().int(),
    lastError: z.string().nullable().describe("why it still waits, failed or came back"),
    messageId: z.string().describe("the same at each attempt, so that a double can be told"),
    notBefore: moment().describe("a waiting mail is not tried before then"),
    nextAttemptAt: moment().nullable().describe("null where nobody can tell"),
    waitsFor: z
      .enum(["its-time", "a-run", "quiet-hours", "address", "answer", "server"])
      .nullable()
      .describe("what a waiting mail waits for; server: none is set, and a person sends the files"),
    lastAttemptAt: moment().nullable(),
    createdAt: moment(),
    sentAt: moment().nullable(),
  })
  .meta({ id: "Mail" });

export const MailPage = pageOf(Mail);
export const MailQuery = z.strictObject({
  ...PAGE_QUERY,
  state: z.enum(MAIL_STATES).optional(),
  kind: z.enum(MAIL_KINDS).optional(),
  customerId: z.guid().optional(),
  visitId: z.guid().optional(),
});

export const BounceOutcome = z
  .object({
    mailId: z.guid(),
    recipient: z.string(),
    action: z.string().describe("RFC 3464 2.3.3: failed, delayed, delivered, relayed or expanded"),
    state: z.enum(MAIL_STATES).describe("of the mail now"),
    addressFailing: z.boolean().describe("whether the address gets nothing more from now on"),
  })
  .meta({ id: "BounceOutcome" });

const clock = z.string().regex(/^([01]\d|2[0-3]):[0-5]\d$/, "must be a time of day such as 20:00");
const quietHours = z
  .strictObject({ from: clock, to: clock })
  .refine(({ from, to }) => from !== to, { path: ["to"], error: "must differ from the beginning" })
  .nullable()
  .meta({ examples: [{ from: "20:00", to: "08:00" }] })
  .describe("by the clock of the firm's time zone; mails to customers wait until they end");

const settings = {
  senderName: shortText(80)
    .nullable()
    .describe("name of the sender; null is the firm's own")
    .meta({ examples: ["Alder Storage"] }),
  replyTo: z.email().max(254).nullable().describe("where an answer to a mail goes"),
  confirmation: z.boolean().describe("whether a booked visit is told"),
  change: z.boolean().describe("whether a moved visit is told"),
  cancellation: z.boolean().describe("whether a cancelled visit is told"),
  reminder: z.boolean().describe("whether a visit is recalled the working day before"),
  reminderHour: z.number().int().min(0).max(23).describe("hour of the firm's day"),
  holdBackMinutes: z
    .number()
    .int()
    .min(0)
    .max(120)
    .describe("changes of a visit within so many minutes are told together"),
  quietHours,
};

export const MailSettingsEdit = z.strictObject(settings).partial();
export type MailSettingsEdit = z.infer<typeof MailSettingsEdit>;
export const MailSettingsReply = z
  .object({
    ...settings,
    senderName: z.string().nullable().describe("name of the sender; null is the firm's own"),
    senderAddress: z.string(),
    mailServer: z.boolean().describe("whether mails leave by themselves (SMTP_URL)"),
    version: z.number().int(),
  })
  .meta({ id: "MailSettings" });

export const FailingAddress = z
  .object({
    customerId: z.guid(),
    reference: z.string(),
    name: z.string(),
    email: z.string(),
    failingSince: moment(),
    reason: z.string(),
  })
  .meta({ id: "FailingAddress" });
export const FailingAddressPage = pageOf(FailingAddress);
export const FailingAddressQuery = z.strictObject(PAGE_QUERY);
