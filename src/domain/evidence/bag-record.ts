// Requirement: the records in an evidence bag have one shape, which the verifier demands before it
// works with them (product rule).
import { z } from "zod";
import type { Answer } from "../acceptance/answer.ts";
import type { SealedFacts } from "./sealed-facts.ts";

const id = z.guid();
const sha256 = z.string().regex(/^[0-9a-f]{64}$/);
const verdict = z.looseObject({
  outcome: z.string(),
  clears: z.boolean(),
  code: z.string(),
  sentence: z.string(),
});

export const AnswerRecord = z.strictObject({
  id,
  itemId: z.string(),
  subject: z.string(),
  value: z.unknown(),
  instrumentId: id.nullable(),
  note: z.string().nullable(),
  photos: z.array(sha256),
  takenAt: z.string(),
  receivedAt: z.string(),
  personId: id,
  receiptOrder: z.int(),
  bodySha256: sha256,
  /** As it was judged when it came in. */
  verdict,
});
export type AnswerRecord = z.infer<typeof AnswerRecord>;

export const CloseOutRecord = z.strictObject({
  id,
  ruleVersion: z.string(),
  answersThrough: z.int(),
  ledgerSeq: z.int(),
  ledgerSha256: sha256,
  closedById: id,
  closedAt: z.string(),
  facts: z.array(z.unknown()),
});
export type CloseOutRecord = z.infer<typeof CloseOutRecord>;

export const ConcessionRecord = z.strictObject({
  id,
  itemId: z.string(),
  subject: z.string(),
  reason: z.string(),
  grantedById: id,
  grantedAt: z.string(),
  expiresOn: z.string().nullable(),
  revokedAt: z.string().nullable(),
  revokedById: id.nullable(),
});
export type ConcessionRecord = z.infer<typeof ConcessionRecord>;

export const PhotoRecord = z.strictObject({
  sha256,
  mediaType: z.enum(["image/jpeg", "image/png", "image/webp"]),
  bytes: z.int(),
  widthPx: z.int(),
  heightPx: z.int(),
  itemId: z.string().nullable(),
  subject: z.string().nullable(),
  personId: id,
  receivedAt: z.string(),
});
export type PhotoRecord = z.infer<typeof PhotoRecord>;

const facts = z.looseObject({
  site: z.looseObject({ timeZone: z.string() }),
  units: z.array(z.looseObject({ id: z.string(), serial: z.string(), position: z.number() })),
  instruments: z.array(z.looseObject({ id: z.string(), calibrations: z.array(z.unknown()) })),
  concessions: z.array(z.looseObject({ id: z.string(), itemId: z.string() })),
  photosHeld: z.array(sha256),
  now: z.string(),
});

/** Facts as sealed; undefined where they have another shape. */
export function readFacts(value: unknown): SealedFacts | undefined {
  const parsed = facts.safeParse(value);
  return parsed.success ? (parsed.data as unknown as SealedFacts) : undefined;
}

const judgement = z.strictObject({
  open: z.boolean(),
  ruleVersion: z.string(),
  facts: z.array(z.unknown()),
  answers: z.array(z.strictObject({ id, verdict: verdict.nullable() })),
});

/** The record files that are judged again, by name under data/records. */
export const RECORD_FILES = {
  "answers.json": z.array(AnswerRecord),
  "close-out.json": z.strictObject({
    closeOuts: z.array(CloseOutRecord),
    reopenings: z.array(
      z.looseObject({ closeOutId: id, ledgerSeq: z.int(), reason: z.string(), reopenedById: id }),
    ),
  }),
  "concessions.json": z.array(ConcessionRecord),
  "facts.json": facts,
  "job.json": z.looseObject({ id, reference: z.string(), state: z.string() }),
  "photos.json": z.array(PhotoRecord),
  "plan.json": z.looseObject({}),
  "verdicts.json": judgement,
} as const;

/** An answer as the rules take it. */
export const toAnswer = (record: AnswerRecord): Answer => ({
  id: record.id,
  itemId: record.itemId,
  subject: record.subject,
  takenAt: record.takenAt,
  personId: record.personId,
  order: record.receiptOrder,
  value: record.value,
  photos: record.photos,
  ...(record.instrumentId === null ? {} : { instrumentId: record.instrumentId }),
  ...(record.note === null ? {} : { note: record.note }),
});

export const PHOTO_ENDINGS = {
  "image/jpeg": "jpg",
  "image/png": "png",
  "image/webp": "webp",
} as const;

/** Path of a photo in the bag. */
export const photoName = ({ sha256: hash, mediaType }: PhotoRecord): string =>
  `data/photos/${hash}.${PHOTO_ENDINGS[mediaType]}`;
