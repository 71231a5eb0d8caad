import { z } from "zod";
import { reference, shortText } from "../../web/fields.ts";
import { PAGE_QUERY, pageOf } from "../../web/paging.ts";

const editable = {
  name: shortText(120).meta({ examples: ["Hanne Osei"] }),
  email: z.email().max(254).nullable().optional(),
  phone: shortText(40).nullable().optional(),
  address: shortText(300)
    .nullable()
    .optional()
    .describe("postal address, when it is not the site's"),
  note: z.string().max(4000).nullable().optional(),
};

export const NewCustomer = z.strictObject(editable);
export const CustomerEdit = z.strictObject(editable).partial();

export const Customer = z
  .object({
    id: z.guid(),
    reference: reference("C"),
    name: z.string(),
    email: z.string().nullable(),
    phone: z.string().nullable(),
    address: z.string().nullable(),
    note: z.string().nullable(),
    archivedAt: z.iso.datetime({ offset: true }).nullable(),
    createdAt: z.iso.datetime({ offset: true }),
    version: z.number().int(),
  })
  .meta({ id: "Customer" });

export const CustomerPage = pageOf(Customer);
export const CustomerQuery = z.strictObject({
  ...PAGE_QUERY,
  name: z.string().max(120).optional().describe("part of the name"),
  archived: z.stringbool().default(false).describe("list archived customers instead"),
});
