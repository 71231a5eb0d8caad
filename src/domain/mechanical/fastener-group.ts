// Fasteners that hold one thing together are tightened as a group: in stages and in an order, or
// the last one loosens the first. The torque is the equipment's own, stated in its instructions.
import { z } from "zod";
import { lineSchema } from "../siting/line.ts";

const lengthMm = z.number().min(-10_000).max(10_000);

const patternSchema = z.discriminatedUnion("kind", [
  z.strictObject({
    kind: z.literal("positions"),
    /** As seen by whoever tightens, y upwards. */
    points: z
      .array(z.strictObject({ xMm: lengthMm, yMm: lengthMm }))
      .min(1)
      .max(64),
  }),
  z.strictObject({
    kind: z.literal("bolt-circle"),
    diameterMm: z.number().positive().max(10_000),
    /** Where point 1 lies, clockwise from the top; the others follow clockwise. */
    firstAngleDeg: z.number().min(-360).max(360).default(0),
  }),
  z.strictObject({
    kind: z.literal("rectangle"),
    /** Points are numbered row by row from the upper left. */
    columns: z.int().min(1).max(16),
    rows: z.int().min(1).max(16),
    pitchXMm: z.number().positive().max(5000),
    pitchYMm: z.number().positive().max(5000),
  }),
]);

export const fastenerGroupSchema = z
  .strictObject({
    id: z.string().regex(/^[a-z0-9][a-z0-9-]{0,39}$/, "use a-z, 0-9 and hyphens"),
    name: lineSchema(80),
    count: z.int().min(1).max(64),
    pattern: patternSchema,
    thread: lineSchema(20),
    /** Final torque. */
    torqueNm: z.number().positive().max(5000),
    /** Where the torque is stated. */
    torqueSource: lineSchema(120),
    stages: z
      .array(z.strictObject({ percent: z.number().positive().max(100) }))
      .min(1)
      .max(6)
      .default([{ percent: 50 }, { percent: 100 }]),
    /** After the last stage, once more round in the order of the numbers at full torque. */
    checkRound: z.boolean().default(true),
  })
  .superRefine((group, refinement) => {
    for (const message of groupProblems(group)) refinement.addIssue({ code: "custom", message });
  });

export type FastenerGroup = z.infer<typeof fastenerGroupSchema>;
export type FastenerGroupInput = z.input<typeof fastenerGroupSchema>;

/** Reads a fastener group; problems one a line. */
export function parseFastenerGroup(
  input: unknown,
): { ok: true; group: FastenerGroup } | { ok: false; problem: string } {
  const parsed = fastenerGroupSchema.safeParse(input);
  if (parsed.success) return { ok: true, group: parsed.data };
  const lines = parsed.error.issues.map((issue) =>
    issue.path.length > 0 ? `${issue.path.join(".")}: ${issue.message}` : issue.message,
  );
  return { ok: false, problem: lines.join("\n") };
}

function groupProblems(group: {
  count: number;
  pattern: z.infer<typeof patternSchema>;
  stages: { percent: number }[];
}): string[] {
  const { count, pattern, stages } = group;
  const placed =
    pattern.kind === "positions"
      ? pattern.points.length
      : pattern.kind === "rectangle"
        ? pattern.columns * pattern.rows
        : count;
  const rising = stages.every(
    ({ percent }, at) => at === 0 || percent > (stages[at - 1]?.percent ?? 0),
  );
  return [
    ...(placed === count ? [] : [`the pattern has ${placed} places for ${count} fasteners`]),
    ...(rising ? [] : ["each stage has to be higher than the one before"]),
    ...(stages.at(-1)?.percent === 100 ? [] : ["the last stage has to be 100 %"]),
    ...(pattern.kind === "positions" && hasDoubledPlace(pattern.points)
      ? ["two fasteners stand in one place"]
      : []),
  ];
}

function hasDoubledPlace(points: readonly { xMm: number; yMm: number }[]): boolean {
  return new Set(points.map(({ xMm, yMm }) => `${xMm} ${yMm}`)).size < points.length;
}
