import { z } from "zod";
import { typedText } from "../../web/fields.ts";

export const FOUND_KINDS = ["customer", "site", "unit", "job", "instrument", "person"] as const;
export type FoundKind = (typeof FOUND_KINDS)[number];

export const TEXT_MOST = 100;

export const SearchQuery = z.strictObject({
  q: typedText(TEXT_MOST)
    .describe("name, serial number, street, postcode, phone number or reference")
    .meta({ examples: ["larch row", "FSA20260142", "J-2026-0142"] }),
});

export const FoundThing = z
  .object({
    kind: z.enum(FOUND_KINDS),
    id: z.guid(),
    name: z.string().describe("reference, serial number or name"),
    title: z.string(),
    detail: z.string(),
    state: z.string().nullable().describe("of a job or a unit; archived or retired of others"),
    exact: z.boolean().describe("its reference or serial number is what was typed"),
    foundAs: z
      .string()
      .nullable()
      .describe("the reference it had before it was merged, where that was found"),
  })
  .meta({ id: "FoundThing" });
export type FoundThing = z.infer<typeof FoundThing>;

export const SearchResult = z
  .object({ items: z.array(FoundThing).describe("the best, exact ones first") })
  .meta({ id: "SearchResult" });
