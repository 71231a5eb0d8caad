// A siting survey: what the surveyor saw and measured of the place where units are to stand.
// The document is versioned (`survey/1`) because it is kept with the job's evidence and judged
// again, years later, against the rule packs of its day. Lists are bounded: the document comes
// from a tablet and is judged pair by pair.
import { z } from "zod";
import { lineSchema } from "./line.ts";
import { checkSurvey } from "./survey-check.ts";
import { FEATURE_KINDS, OPENS_TO, ROOM_KINDS } from "./vocabulary.ts";

export const idSchema = z.string().regex(/^[a-z0-9][a-z0-9-]{0,39}$/, "use a-z, 0-9 and hyphens");

export const nameSchema = lineSchema(80);
const positionMm = z.number().min(0).max(100_000);
const sizeMm = z.number().positive().max(100_000);

const rectangle = {
  id: idSchema,
  name: nameSchema,
  planeId: idSchema,
  /** Left edge from the left end of the plane. */
  xMm: positionMm,
  /** Bottom edge above the floor (elevation) or near edge from the front (plan). */
  yMm: positionMm,
  widthMm: sizeMm,
  heightMm: sizeMm,
};

const roomSchema = z.strictObject({
  id: idSchema,
  name: nameSchema,
  kinds: z.array(z.enum(ROOM_KINDS)).min(1).max(5),
});

const planeSchema = z.strictObject({
  id: idSchema,
  name: nameSchema,
  roomId: idSchema,
  /** `elevation`: seen from the front. `plan`: seen from above, heights unknown. */
  view: z.enum(["elevation", "plan"]),
  widthMm: sizeMm,
  heightMm: sizeMm,
  wall: z
    .strictObject({
      combustible: z.boolean().optional(),
      /** What lies behind the wall. */
      backsOnto: z.enum(ROOM_KINDS),
    })
    .optional(),
});

const unitSchema = z.strictObject({
  ...rectangle,
  depthMm: sizeMm.optional(),
  /** Only batteries are held to distances and energy; other equipment to working space alone. */
  role: z.enum(["battery", "equipment"]).default("battery"),
  energyKWh: z.number().positive().max(10_000).optional(),
  voltageToGroundV: z.number().positive().max(1_500).optional(),
  /** A smaller separation shown by a fire test, and where that is written. */
  testedSeparation: z.strictObject({ minimumMm: positionMm, evidence: nameSchema }).optional(),
  workingSpace: z
    .strictObject({
      widthMm: sizeMm.optional(),
      heightMm: sizeMm.optional(),
      depthMm: sizeMm.optional(),
      /** What faces the unit: 1 nothing grounded, 2 grounded parts, 3 live parts (NEC). */
      condition: z.union([z.literal(1), z.literal(2), z.literal(3)]).optional(),
    })
    .optional(),
});

const opening = { ...rectangle, opensTo: z.enum(OPENS_TO) };

const featureSchema = z.discriminatedUnion("kind", [
  z.strictObject({ kind: z.literal("door"), ...opening }),
  z.strictObject({ kind: z.literal("window"), ...opening }),
  z.strictObject({ kind: z.literal("vent"), ...opening }),
  z.strictObject({ kind: z.literal("exit"), ...opening, clearWidthMm: sizeMm.optional() }),
  z.strictObject({ kind: z.literal("ignition-source"), ...rectangle }),
  z.strictObject({ kind: z.literal("unrelated-appliance"), ...rectangle }),
  z.strictObject({ kind: z.literal("stored-flammables"), ...rectangle }),
  z.strictObject({ kind: z.literal("boundary"), ...rectangle }),
  z.strictObject({ kind: z.literal("barrier"), ...rectangle, nonCombustible: z.boolean() }),
]);

/** Distance by tape, edge to edge; it outranks the drawing. Direction of `toId` from `fromId`. */
const tapeSchema = z.strictObject({
  fromId: idSchema,
  toId: idSchema,
  distanceMm: positionMm,
  direction: z.enum(["beside", "above", "below"]),
});

export const surveySchema = z
  .strictObject({
    schema: z.literal("survey/1"),
    title: nameSchema,
    region: idSchema,
    /** Edition chosen for each family of editions that the rule pack offers. */
    editions: z
      .record(idSchema, idSchema)
      .refine((chosen) => Object.keys(chosen).length <= 20, "must have at most 20 entries")
      .default({}),
    displayLength: z.enum(["mm", "in"]).default("mm"),
    ambient: z.strictObject({ minimumC: z.number(), maximumC: z.number() }).optional(),
    /** Kinds the surveyor looked for. A kind neither drawn nor listed here was not surveyed. */
    lookedFor: z.array(z.enum(FEATURE_KINDS)).max(FEATURE_KINDS.length).default([]),
    rooms: z.array(roomSchema).min(1).max(20),
    planes: z.array(planeSchema).min(1).max(12),
    units: z.array(unitSchema).min(1).max(40),
    features: z.array(featureSchema).max(100).default([]),
    tape: z.array(tapeSchema).max(200).default([]),
  })
  .superRefine((survey, refinement) => {
    for (const problem of checkSurvey(survey)) {
      refinement.addIssue({ code: "custom", path: problem.path, message: problem.message });
    }
  });

export type Survey = z.infer<typeof surveySchema>;
export type SurveyInput = z.input<typeof surveySchema>;
export type SurveyRoom = Survey["rooms"][number];
export type SurveyPlane = Survey["planes"][number];
export type SurveyUnit = Survey["units"][number];
export type SurveyFeature = Survey["features"][number];

/**
 * Reads a `survey/1` document.
 * @returns the survey, or every problem with its place in the document, one a line.
 */
export function parseSurvey(
  input: unknown,
): { ok: true; survey: Survey } | { ok: false; problem: string } {
  const parsed = surveySchema.safeParse(input);
  if (parsed.success) return { ok: true, survey: parsed.data };
  const lines = parsed.error.issues.map((issue) => `${issue.path.join(".")}: ${issue.message}`);
  return { ok: false, problem: lines.join("\n") };
}
