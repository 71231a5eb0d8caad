import { z } from "zod";
import { LANGUAGES } from "../../language/languages.ts";
import { reference, shortText, typedText } from "../../web/fields.ts";
import { PAGE_QUERY, pageOf } from "../../web/paging.ts";

const editable = {
  name: shortText(120).meta({ examples: ["Hanne Osei"] }),
  email: z.email().max(254).nullable().optional(),
  phone: shortText(40).nullable().optional(),
  address: shortText(300)
    .nullable()
    .optional()
    .describe("postal address, when it is not the site's"),
  note: typedText(4000).nullable().optional(),
  language: z
    .enum(LANGUAGES)
    .nullable()
    .optional()
    .describe("of mails to the customer; null is the firm's"),
};

export const NewCustomer = z.strictObject(editable);
export const CustomerEdit = z
  .strictObject({
    ...editable,
    archived: z.boolean().describe("true takes the customer off the lists; false brings it back"),
  })
  .partial();

export const Customer = z
  .object({
    id: z.guid(),
    reference: reference("C"),
    name: z.string(),
    email: z.string().nullable(),
    phone: z.string().nullable(),
    address: z.string().nullable(),
    note: z.string().nullable(),
    language: z.string().nullable(),
    emailFailingAt: z.iso
      .datetime({ offset: true })
      .nullable()
      .describe("since when mails are refused for good; an edit of email clears it"),
    emailFailingReason: z.string().nullable(),
    mergedIntoId: z.guid().nullable().describe("the customer that this one became part of"),
    archivedAt: z.iso.datetime({ offset: true }).nullable(),
    createdAt: z.iso.datetime({ offset: true }),
    version: z.number().int(),
  })
  .meta({ id: "Customer" });

export const CustomerPage = pageOf(Customer);
export const CustomerQuery = z.strictObject({
  ...PAGE_QUERY,
  name: typedText(120).optional().describe("part of the name"),
  archived: z.stringbool().default(false).describe("list archived customers instead"),
});
