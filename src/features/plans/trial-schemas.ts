import { z } from "zod";
import { isTimeZone } from "../../domain/dates/zone-time.ts";
import { UNIT_KINDS } from "../../domain/plan/item.ts";
import { UNIT_SYMBOLS } from "../../domain/quantities/units.ts";
import { dateTime, plainDate, shortText } from "../../web/fields.ts";
import { NewAnswer, Verdict } from "../answers/schemas.ts";
import { PlanFindings, PlanTrial } from "./schemas.ts";

const ANSWERS_MOST = 2000;
const UNITS_MOST = 64;
const INSTRUMENTS_MOST = 100;
const ATTRIBUTES_MOST = 100;

const made = (what: string) => shortText(64).describe(what);
const attributes = z
  .record(z.string().max(40), z.union([z.number(), z.string().max(200), z.boolean()]))
  .refine((record) => Object.keys(record).length <= ATTRIBUTES_MOST, {
    error: `must have at most ${ATTRIBUTES_MOST} entries`,
  });

const TrialUnit = z
  .strictObject({
    id: made("as `subject` of answers names it; the kind and its number if left out").optional(),
    kind: z.enum(UNIT_KINDS).optional().describe("that of the product model if left out"),
    productModelId: z.guid().optional().describe("whose code, attributes and serial form count"),
    modelCode: shortText(40).optional(),
    serial: shortText(64).optional(),
    hardwareRevision: shortText(40).optional(),
    attributes: attributes
      .optional()
      .describe("figures of the model; over those of the model named"),
  })
  .refine(({ kind, productModelId }) => kind !== undefined || productModelId !== undefined, {
    path: ["kind"],
    error: "is missing; name the kind or a productModelId",
  });

const amount = z.number().min(0).max(1e12);
const unit = z.enum(UNIT_SYMBOLS);
const TrialInstrument = z.union([
  z.strictObject({ id: z.guid().describe("an instrument of the firm, as it is on file") }),
  z.strictObject({
    id: made("as `instrumentId` of answers names it"),
    reference: shortText(40),
    class: z.string().regex(/^[a-z][a-z-]{1,39}$/),
    accuracy: z
      .strictObject({
        percentOfReading: amount,
        percentOfRange: amount,
        digits: amount,
        percentOfSetting: amount,
      })
      .partial()
      .optional(),
    range: z.strictObject({ max: amount, unit }).optional(),
    resolution: z.strictObject({ step: amount, unit }).optional(),
    calibrations: z
      .array(z.strictObject({ on: plainDate(), due: plainDate(), passed: z.boolean() }))
      .max(20)
      .default([]),
  }),
]);

export const TrialContext = z
  .strictObject({
    site: z.strictObject({
      supply: shortText(40),
      region: shortText(40),
      country: shortText(40),
      timeZone: z.string().max(64).refine(isTimeZone, "must be an IANA time zone"),
    }),
    units: z.array(TrialUnit).max(UNITS_MOST).default([]),
    instruments: z.array(TrialInstrument).max(INSTRUMENTS_MOST).default([]),
    concessions: z
      .array(
        z.strictObject({
          itemId: z.string().max(48),
          subject: z.string().max(64).default(""),
          expiresOn: plainDate().optional(),
        }),
      )
      .max(200)
      .default([])
      .describe("as granted by a manager who took no reading"),
    now: dateTime().optional().describe("moment of the judging; the present if left out"),
  })
  .meta({ id: "PlanTrialContext" });

export const TrialAnswer = z
  .strictObject({
    ...NewAnswer.shape,
    id: made("made up if left out").optional(),
    instrumentId: made("of an instrument of the context").optional(),
    takenAt: dateTime().optional().describe("a minute after the answer before if left out"),
  })
  .meta({ id: "PlanTrialAnswer" });

export const PlanTrialRun = z
  .strictObject({
    document: PlanTrial.shape.document.optional(),
    plan: z
      .strictObject({ planId: z.guid(), number: z.number().int().min(1).max(1_000_000) })
      .optional()
      .describe("a version of a plan of the firm instead of a document"),
    context: TrialContext,
    answers: z.array(TrialAnswer).max(ANSWERS_MOST).default([]),
  })
  .refine(({ document, plan }) => (document === undefined) !== (plan === undefined), {
    path: ["document"],
    error: "give a document or name a plan, one of them",
  });
export type PlanTrialRun = z.infer<typeof PlanTrialRun>;

const TriedItem = z
  .object({
    itemId: z.string(),
    stageId: z.string(),
    title: z.string(),
    subject: z.string(),
    subjectLabel: z.string(),
    holdPoint: z.boolean(),
    safetyCritical: z.boolean(),
    verdict: Verdict,
    notAskedBy: z.string().optional().describe("the expression that said no"),
  })
  .meta({ id: "TriedItem" });

const Blocker = z
  .object({
    itemId: z.string(),
    subject: z.string(),
    code: z.string(),
    title: z.string(),
    sentence: z.string(),
    toClear: z.string(),
    safetyCritical: z.boolean(),
    concedable: z.boolean(),
  })
  .catchall(z.unknown())
  .meta({ id: "TriedBlocker" });

export const PlanTrialResult = z
  .object({
    ...PlanFindings.shape,
    items: z.array(TriedItem).describe("one for each item and subject; none with problems"),
    gate: z
      .object({
        open: z.boolean(),
        blockers: z.array(Blocker),
        ruleVersion: z.string(),
        stats: z.record(z.string(), z.number()),
      })
      .nullable()
      .describe("null where the document has problems"),
  })
  .meta({ id: "PlanTrialResult" });

export const SampleQuery = z.strictObject({
  supply: shortText(40)
    .optional()
    .describe("that the site is to have")
    .meta({ examples: ["TT"] }),
  region: shortText(40).optional(),
});

export const PlanSample = z
  .object({
    context: TrialContext.describe("to be sent to POST /api/v1/plans/trial"),
    answers: z.array(TrialAnswer),
    assumed: z
      .record(z.string(), z.union([z.number(), z.string(), z.boolean()]))
      .describe("figures of product models that were made up"),
    notDerived: z
      .array(z.object({ itemId: z.string(), subject: z.string(), sentence: z.string() }))
      .describe("where no passing answer could be worked out, and why"),
  })
  .meta({ id: "PlanSample" });
