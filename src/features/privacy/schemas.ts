import { z } from "zod";
import { PAGE_QUERY, pageOf } from "../../web/paging.ts";

export const RETENTION_KINDS = ["mails", "messages", "changes", "customers"] as const;
export type RetentionKind = (typeof RETENTION_KINDS)[number];
export const MONTHS_MOST = 240;

const months = () => z.coerce.number().int().min(1).max(MONTHS_MOST).nullable();

export const Retention = z
  .strictObject({
    mails: months().describe("texts, addresses and attachments of mails"),
    messages: months().describe("what office and crew wrote to each other about a job"),
    changes: months().describe("what customers, sites, units, instruments and people were before"),
    customers: months().describe("after archiving, until they stand on the list to be erased"),
  })
  .meta({ id: "Retention", description: "months that each is kept; null, for good" });
export type Retention = z.infer<typeof Retention>;

export const NewErasure = z.strictObject({
  reason: z
    .string()
    .trim()
    .min(3)
    .max(300)
    .meta({ examples: ["Asked for by letter"] }),
});

export const Erasure = z
  .object({
    id: z.guid(),
    customerId: z.guid(),
    customer: z.string().describe("reference"),
    reason: z.string(),
    customers: z.number().int().describe("the customer and whoever was merged into it"),
    sites: z.number().int(),
    jobs: z.number().int().describe("whose records stay, without the person"),
    mails: z.number().int(),
    erasedBy: z.string(),
    erasedAt: z.iso.datetime({ offset: true }),
  })
  .meta({ id: "Erasure" });

export const ErasurePage = pageOf(Erasure);
export const ErasureQuery = z.strictObject(PAGE_QUERY);

export const PersonalData = z
  .looseObject({ customer: z.looseObject({ reference: z.string() }) })
  .meta({
    id: "PersonalData",
    description: "all that is held about a customer, in a form that other programs read",
  });
