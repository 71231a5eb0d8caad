import { z } from "zod";
import { shortText } from "../../web/fields.ts";
import { PAGE_QUERY, pageOf } from "../../web/paging.ts";

/** As many packs as a switch map may speak of. */
const PACKS_MOST = 64;

const name = shortText(80).meta({ examples: ["Bank A"] });
const protocol = shortText(40)
  .describe("protocol of the switch map by which its packs speak to the inverter")
  .meta({ examples: ["can-b"] });

export const NewBank = z.strictObject({
  siteId: z.guid(),
  name,
  protocol: protocol.nullable().optional(),
});
export const BankEdit = z.strictObject({ name, protocol: protocol.nullable() }).partial();

const isUnique = (values: unknown[]): boolean => new Set(values).size === values.length;

export const BankPacks = z.strictObject({
  packs: z
    .array(z.strictObject({ unitId: z.guid(), position: z.number().int().min(1).max(PACKS_MOST) }))
    .max(PACKS_MOST)
    .refine((packs) => isUnique(packs.map(({ unitId }) => unitId)), "must not name a pack twice")
    .refine(
      (packs) => isUnique(packs.map(({ position }) => position)),
      "must not use a position twice",
    )
    .describe("all packs of the bank; one that is left out is no longer part of it")
    .meta({ examples: [[{ unitId: "019ac4a1-1111-7cc1-9d6a-0c8f6f0b7a11", position: 1 }]] }),
});

export const Bank = z
  .object({
    id: z.guid(),
    siteId: z.guid(),
    name: z.string(),
    protocol: z.string().nullable(),
    packs: z
      .array(
        z.object({
          unitId: z.guid(),
          serial: z.string(),
          modelId: z.guid(),
          modelCode: z.string(),
          position: z.number().int().nullable(),
          firmwareLevel: z.string().nullable(),
        }),
      )
      .describe("in order of position; packs without one last"),
    createdAt: z.iso.datetime({ offset: true }),
    version: z.number().int(),
  })
  .meta({ id: "Bank" });

export const BankPage = pageOf(Bank);
export const BankQuery = z.strictObject({ ...PAGE_QUERY, siteId: z.guid().optional() });
