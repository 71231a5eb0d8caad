import { z } from "zod";
import { LIKENESS_REASONS } from "../../domain/registry/likeness.ts";
import { reference } from "../../web/fields.ts";
import { MERGE_KINDS } from "./store.ts";

export const NewMerge = z.strictObject({
  intoId: z
    .guid()
    .describe("the record that stays")
    .meta({ examples: ["019ac4a1-1111-7cc1-9d6a-0c8f6f0b7a11"] }),
});

export const MergeParams = z.object({ id: z.guid(), mergeId: z.guid() });

export const Merge = z
  .object({
    id: z.guid(),
    kind: z.enum(MERGE_KINDS),
    fromId: z.guid(),
    intoId: z.guid(),
    moved: z
      .array(z.object({ what: z.string(), count: z.number().int() }))
      .describe("how many records of each kind point at the other one since"),
    filled: z.array(z.string()).describe("empty fields that were taken over"),
    mergedBy: z.string(),
    mergedAt: z.iso.datetime({ offset: true }),
    undoneBy: z.string().nullable(),
    undoneAt: z.iso.datetime({ offset: true }).nullable(),
  })
  .meta({ id: "Merge" });

export const Duplicates = z
  .object({
    items: z.array(
      z.object({
        id: z.guid(),
        reference: reference("S"),
        title: z.string(),
        detail: z.string(),
        reasons: z.array(z.enum(LIKENESS_REASONS)),
      }),
    ),
  })
  .meta({ id: "Duplicates" });
