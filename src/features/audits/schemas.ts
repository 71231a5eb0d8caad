import { z } from "zod";
import { SEED_PATTERN } from "../../domain/sampling/draw-sample.ts";
import { QUALITY_LIMITS, type QualityLimit } from "../../domain/sampling/single-plan.ts";
import { plainDate } from "../../web/fields.ts";

export const SampleQuery = z.object({
  from: plainDate(),
  to: plainDate(),
  limit: z
    .enum(QUALITY_LIMITS.map(String))
    .transform((text) => Number(text) as QualityLimit)
    .describe("acceptance quality limit, per cent nonconforming"),
  seed: z.string().regex(SEED_PATTERN).describe("the same seed draws the same jobs"),
});

/** Whether the period has its days in order. */
export const inOrder = ({ from, to }: { from: string; to: string }): boolean => from <= to;
