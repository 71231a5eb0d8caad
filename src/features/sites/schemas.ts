import { z } from "zod";
import { isTimeZone } from "../../domain/dates/zone-time.ts";
import { reference, shortText, typedText } from "../../web/fields.ts";
import { PAGE_QUERY, pageOf } from "../../web/paging.ts";
import { COUNTRY_CODES } from "./countries.ts";

const SUPPLIES = ["TN-S", "TN-C-S", "TT", "split-phase"] as const;

const editable = {
  customerId: z.guid(),
  addressLine: shortText(200).meta({ examples: ["14 Larch Row"] }),
  locality: shortText(80).meta({ examples: ["Northwick"] }),
  postcode: shortText(16).meta({ examples: ["NW0 4ZZ"] }),
  country: z
    .string()
    .refine((code) => COUNTRY_CODES.has(code), "must be an ISO 3166-1 alpha-2 code such as GB")
    .meta({ examples: ["GB"] }),
  latitude: z
    .number()
    .min(-90)
    .max(90)
    .meta({ examples: [52.19] }),
  longitude: z
    .number()
    .min(-180)
    .max(180)
    .meta({ examples: [-1.71] }),
  timeZone: z
    .string()
    .max(64)
    .refine(isTimeZone, "must be an IANA time zone such as Europe/London")
    .meta({ examples: ["Europe/London"] }),
  supply: z.enum(SUPPLIES).describe("earthing arrangement of the supply (IEC 60364-1)"),
  region: shortText(40)
    .describe("whose rules for siting and wiring apply")
    .meta({ examples: ["uk"] }),
  name: shortText(120)
    .nullable()
    .optional()
    .describe("what the site is called")
    .meta({ examples: ["Mill barn"] }),
};

export const NewSite = z.strictObject(editable);
export const SiteEdit = z
  .strictObject({
    ...editable,
    archived: z.boolean().describe("true takes the site off the lists; false brings it back"),
  })
  .partial();

const siteFields = {
  id: z.guid(),
  reference: reference("S"),
  customerId: z.guid(),
  name: z.string().nullable(),
  addressLine: z.string(),
  locality: z.string(),
  postcode: z.string(),
  country: z.string(),
  latitude: z.number(),
  longitude: z.number(),
  timeZone: z.string(),
  supply: z.string(),
  region: z.string(),
  mergedIntoId: z.guid().nullable().describe("the site that this one became part of"),
  archivedAt: z.iso.datetime({ offset: true }).nullable(),
  createdAt: z.iso.datetime({ offset: true }),
  version: z.number().int(),
};

export const Site = z.object(siteFields).meta({ id: "Site" });

/** Bound on the units a site is shown with; `unitCount` counts them all. */
export const SITE_UNITS_MOST = 200;

export const SiteWithUnits = z
  .object({
    ...siteFields,
    unitCount: z.number().int().describe("units installed here"),
    openJobCount: z.number().int(),
    units: z
      .array(
        z.object({
          id: z.guid(),
          serial: z.string(),
          modelId: z.guid(),
          modelCode: z.string(),
          kind: z.string(),
          bankId: z.guid().nullable(),
          bankPosition: z.number().int().nullable(),
          firmwareLevel: z.string().nullable(),
        }),
      )
      .describe(`the first ${SITE_UNITS_MOST} of them`),
  })
  .meta({ id: "SiteWithUnits" });

export const SitePage = pageOf(Site);
export const SiteQuery = z.strictObject({
  ...PAGE_QUERY,
  customerId: z.guid().optional(),
  locality: typedText(80).optional().describe("part of the locality"),
  postcode: typedText(16).optional().describe("beginning of the postcode"),
  region: typedText(40).optional(),
  archived: z.stringbool().default(false).describe("list archived sites instead"),
});
