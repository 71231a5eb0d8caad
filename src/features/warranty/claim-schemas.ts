import { z } from "zod";
import { longText, reference, shortText } from "../../web/fields.ts";
import { PAGE_QUERY, pageOf } from "../../web/paging.ts";

const STATES = ["draft", "sent", "accepted", "refused", "settled", "withdrawn"] as const;

export const NewClaim = z
  .strictObject({
    unitId: z.guid(),
    jobId: z.guid().optional().describe("job whose evidence bag goes with it"),
    fault: longText(4000).describe("what is wrong with the unit"),
  })
  .meta({
    examples: [{ unitId: "01981f7e-5a3c-7000-8000-000000000001", fault: "Cell 7 drops below 2 V" }],
  });
export type NewClaim = z.infer<typeof NewClaim>;

export const ClaimMove = z.strictObject({
  state: z.enum(STATES).exclude(["draft"]),
  makerReference: shortText(120).optional().describe("the maker's own, once there is one"),
  note: longText(4000).optional().describe("what the maker answered, or how it was settled"),
});
export type ClaimMove = z.infer<typeof ClaimMove>;

const moment = z.iso.datetime({ offset: true }).nullable();
export const Claim = z
  .object({
    id: z.guid(),
    reference: reference("W"),
    unitId: z.guid(),
    jobId: z.guid().nullable(),
    fault: z.string(),
    state: z.enum(STATES),
    next: z.array(z.enum(STATES)).readonly().describe("states it may take from here"),
    makerReference: z.string().nullable(),
    note: z.string().nullable(),
    sentAt: moment,
    answeredAt: moment,
    endedAt: moment,
    createdAt: z.iso.datetime({ offset: true }),
    version: z.number().int(),
  })
  .meta({ id: "WarrantyClaim" });
export const ClaimPage = pageOf(Claim);
export const ClaimQuery = z.strictObject({
  ...PAGE_QUERY,
  state: z.enum(STATES).optional(),
  unitId: z.guid().optional(),
});
