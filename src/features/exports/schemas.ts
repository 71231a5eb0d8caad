import { z } from "zod";
import { PAGE_QUERY, pageOf } from "../../web/paging.ts";

export const Export = z
  .object({
    id: z.guid(),
    list: z.string(),
    filter: z.record(z.string(), z.unknown()).describe("as it was asked for"),
    personId: z.guid(),
    personName: z.string(),
    at: z.iso.datetime({ offset: true }),
    rows: z.number().int().nullable().describe("null where it broke off, and for the due list"),
  })
  .meta({ id: "Export" });

export const ExportPage = pageOf(Export);
export const ExportQuery = z.strictObject({
  ...PAGE_QUERY,
  list: z.string().max(40).optional().describe("of this list alone"),
});
