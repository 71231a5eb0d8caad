import { z } from "zod";
import { fastenerGroupSchema } from "../../domain/mechanical/fastener-group.ts";

export const FastenerGroupBody = fastenerGroupSchema
  .describe("fasteners, their pattern, thread and torque; the torque is the instructions' own")
  .meta({
    examples: [
      {
        id: "cover",
        name: "Cover",
        count: 8,
        pattern: { kind: "bolt-circle", diameterMm: 220 },
        thread: "M6",
        torqueNm: 8,
        torqueSource: "Installation sheet, edition 2, page 14",
      },
    ],
  });

export const Tightening = z
  .object({
    points: z.array(z.object({ number: z.number().int(), xMm: z.number(), yMm: z.number() })),
    pattern: z.enum(["cross", "inside-out"]),
    passes: z.array(
      z.object({
        number: z.number().int(),
        percent: z.number(),
        torqueNm: z.number(),
        kind: z.enum(["staged", "check round"]),
        order: z.array(z.number().int()).describe("numbers of the points, first to last"),
      }),
    ),
    source: z.string(),
    caution: z.string(),
  })
  .meta({ id: "Tightening" });
