import { z } from "zod";
import { refuseFaults } from "../../web/fields.ts";

const text = (most: number) => z.string().min(1).max(most);
const number = z
  .union([z.number(), text(40)])
  .describe('a number, or the text as read off the instrument: 2.75, "1,5", ">999"');

/** One shape a kind of item; the plan decides which one an item takes. */
export const AnswerValue = z
  .union([
    z.strictObject({ done: z.boolean() }).describe("confirm"),
    z.strictObject({ number, unit: text(20) }).describe("measure"),
    z
      .strictObject({
        points: z
          .array(z.number().int().min(1).max(200))
          .max(200)
          .describe("which fasteners, from 1"),
        setting: z.strictObject({ number, unit: text(20) }).describe("what the wrench was set to"),
      })
      .describe("tighten"),
    z.strictObject({ count: z.number().int().min(0).max(100_000) }).describe("count"),
    z.strictObject({ choice: text(200) }).describe("choose"),
    z.strictObject({ text: text(200) }).describe("identify: a serial number or a firmware level"),
    z
      .strictObject({ positions: z.record(text(60), text(60)).describe("position by switch") })
      .describe("set"),
    z
      .strictObject({ name: text(120), signature: z.string().length(64).optional() })
      .describe("sign; signature is the SHA-256 of its picture"),
    z.strictObject({}).describe("photo: the pictures are in `photos`"),
  ])
  .meta({ id: "AnswerValue" });

/** Its texts are looked at by whoever takes it: a tablet's one by one, others as a batch. */
export const NewAnswer = z
  .strictObject({
    id: z.guid().describe("made by the sender; the same id again is the same answer"),
    itemId: text(48),
    subject: z
      .string()
      .max(64)
      .default("")
      .describe("unit id, fastener group or number it is for; empty for none"),
    takenAt: z.iso
      .datetime({ offset: true })
      .describe("when it was read, with the offset of the place"),
    instrumentId: z.guid().optional(),
    photos: z
      .array(z.string().regex(/^[0-9a-f]{64}$/))
      .max(20)
      .optional()
      .describe("SHA-256 of each photo"),
    note: z.string().trim().min(1, "must not be empty").max(2000).optional(),
    value: AnswerValue,
  })
  .meta({
    id: "NewAnswer",
    examples: [
      {
        id: "019ac4a1-7d5e-7cc1-9d6a-0c8f6f0b7a11",
        itemId: "pack_voltage",
        subject: "019ac4a1-1111-7cc1-9d6a-0c8f6f0b7a11",
        takenAt: "2026-11-25T10:42:00+00:00",
        instrumentId: "019ac4a1-2222-7cc1-9d6a-0c8f6f0b7a11",
        value: { number: "52.1", unit: "V" },
      },
    ],
  });
export type NewAnswer = z.infer<typeof NewAnswer>;

export const AnswerBatch = z.strictObject({
  answers: z
    .array(NewAnswer)
    .min(1)
    .max(200)
    .superRefine(refuseFaults((path) => (path.at(-1) === "note" ? "many" : "one")))
    .describe("one answer, or a batch; all are kept or none"),
});

export const OUTCOMES = [
  "pass",
  "fail",
  "marginal",
  "missing",
  "stale-instrument",
  "out-of-sequence",
  "conceded",
  "not-applicable",
] as const;

export const Verdict = z
  .object({
    outcome: z.enum(OUTCOMES),
    clears: z.boolean().describe("whether it meets the item"),
    code: z.string().describe("the finer reason"),
    sentence: z.string().describe("what was read and what was needed"),
    toClear: z.string().optional().describe("what would clear it"),
  })
  .catchall(z.unknown())
  .meta({ id: "Verdict" });

export const KeptAnswer = z
  .object({
    id: z.guid(),
    itemId: z.string(),
    subject: z.string(),
    repeated: z.boolean().describe("it had been kept before; this is the stored verdict"),
    verdict: Verdict,
  })
  .meta({ id: "KeptAnswer" });

export const KeptAnswers = z.object({ answers: z.array(KeptAnswer) });

export const AnswerRecord = z
  .object({
    id: z.guid(),
    itemId: z.string(),
    subject: z.string(),
    value: z.unknown(),
    instrumentId: z.guid().nullable(),
    note: z.string().nullable(),
    photos: z.array(z.string()),
    takenAt: z.string(),
    receivedAt: z.string(),
    personId: z.guid(),
    receiptOrder: z.number().int(),
    verdict: Verdict,
  })
  .meta({ id: "Answer" });
