import { z } from "zod";

export const EvidenceKey = z
  .object({
    id: z.guid(),
    sha256: z.string().describe("fingerprint: SHA-256 of the certificate"),
    certificate: z.string().describe("PEM"),
    createdAt: z.string(),
  })
  .meta({ id: "EvidenceKey" });

export const EvidenceKeyList = z.object({ items: z.array(EvidenceKey), next: z.null() });

export const FirmParams = z.object({ firmId: z.guid() });
