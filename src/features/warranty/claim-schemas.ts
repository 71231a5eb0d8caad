import { z } from "zod";
import { longText, reference, shortText } from "../../web/fields.ts";
import { PAGE_QUERY, pageOf } from "../../web/paging.ts";

export const CLAIM_STATES = [
  "draft",
  "sent",
  "accepted",
  "refused",
  "settled",
  "withdrawn",
] as const;

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
  state: z.enum(CLAIM_STATES).exclude(["draft"]),
  makerReference: shortText(120).optional().describe("the maker's own, once there is one"),
  note: longText(4000).optional().describe("what the maker answered, or how it was settled"),
  replacementUnitId: z
    .guid()
    .optional()
    .describe("with settled: the unit that came in the swap that answered the claim"),
});
export type ClaimMove = z.infer<typeof ClaimMove>;

const moment = z.iso.datetime({ offset: true }).nullable();
export const Claim = z
  .object({
    id: z.guid(),
    reference: reference("W"),
    unitId: z.guid(),
    jobId: z.guid().nullable(),
    replacementUnitId: z.guid().nullable().describe("the unit that came in answer to it"),
    fault: z.string(),
    state: z.enum(CLAIM_STATES),
    next: z.array(z.enum(CLAIM_STATES)).readonly().describe("states it may take from here"),
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
  state: z.enum(CLAIM_STATES).optional(),
  unitId: z.guid().optional().describe("the unit claimed for, or that came in answer"),
});

export const NewClaimEvidence = z
  .union([z.strictObject({ exportId: z.guid() }), z.strictObject({ documentId: z.guid() })])
  .meta({ examples: [{ exportId: "01981f7e-5a3c-7000-8000-000000000001" }] });
export type NewClaimEvidence = z.infer<typeof NewClaimEvidence>;

export const ClaimEvidence = z
  .object({
    id: z.guid(),
    kind: z.enum(["bag", "document"]),
    exportId: z.guid().nullable(),
    documentId: z.guid().nullable(),
    jobId: z.guid().nullable().describe("of the document"),
    name: z.string(),
    state: z.string().describe("of a bag: making, ready, failed or gone; of a document: ready"),
    sha256: z.string().nullable(),
    addedAt: z.iso.datetime({ offset: true }),
  })
  .meta({ id: "WarrantyClaimEvidence" });
export type ClaimEvidence = z.infer<typeof ClaimEvidence>;
export const ClaimEvidenceList = z
  .object({ items: z.array(ClaimEvidence) })
  .meta({ id: "WarrantyClaimEvidenceList" });
