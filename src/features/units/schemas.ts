import { z } from "zod";
import { dateTime, longText, shortText, typedText } from "../../web/fields.ts";
import { PAGE_QUERY, pageOf } from "../../web/paging.ts";

export const UNIT_STATES = ["received", "installed", "swapped", "removed"] as const;
/** Longer than any serial, so that a whole label scanned by mistake gets a sentence of its own. */
const TYPED_SERIAL_MOST = 500;

const serial = z
  .string()
  .min(1)
  .max(TYPED_SERIAL_MOST)
  .describe("as read off the label; spaces and small letters do not matter")
  .meta({ examples: ["FSA20260142"] });
const hardwareRevision = shortText(40).meta({ examples: ["C2"] });
const note = longText(2000);
const reason = longText(500).meta({ examples: ["Cell 7 does not balance"] });
const at = dateTime().optional().describe("when it was done; now when left out");
const jobId = z.guid().optional().describe("open job at the site; it goes on that job's ledger");

export const NewUnit = z.strictObject({
  modelId: z.guid(),
  serial,
  hardwareRevision: hardwareRevision.optional(),
  note: note.optional(),
});

export const UnitEdit = z.strictObject({
  hardwareRevision: hardwareRevision.nullable().optional(),
  note: note.nullable().optional(),
});

export const NewInstallation = z
  .strictObject({
    siteId: z.guid(),
    bankId: z.guid().optional().describe("bank of the site that the pack becomes part of"),
    bankPosition: z.number().int().min(1).max(64).optional(),
    jobId,
    at,
    note: note.optional(),
  })
  .refine((body) => body.bankPosition === undefined || body.bankId !== undefined, {
    path: ["bankPosition"],
    error: "is a place in a bank: send bankId with it",
  });

export const NewRemoval = z.strictObject({ jobId, reason, at });

export const NewSwap = z
  .strictObject({
    newUnitId: z.guid().optional().describe("the unit that comes, when its goods-in was recorded"),
    newSerial: serial
      .optional()
      .describe("or its serial; its goods-in is recorded when it was not"),
    modelId: z.guid().optional().describe("model of newSerial; that of the old unit when left out"),
    jobId,
    reason,
    at,
  })
  .refine((body) => (body.newUnitId === undefined) !== (body.newSerial === undefined), {
    path: ["newUnitId"],
    error: "send either newUnitId or newSerial",
  })
  .refine((body) => body.modelId === undefined || body.newSerial !== undefined, {
    path: ["modelId"],
    error: "goes with newSerial only",
  });

const unitFields = {
  id: z.guid(),
  modelId: z.guid(),
  modelCode: z.string(),
  kind: z.string(),
  serial: z.string(),
  hardwareRevision: z.string().nullable(),
  note: z.string().nullable(),
  stockPlace: z.string().nullable().describe("where it lies while it is in stock"),
  quarantinedAt: z.iso
    .datetime({ offset: true })
    .nullable()
    .describe("since when it is in quarantine: neither carried nor installed"),
  state: z.enum(UNIT_STATES),
  siteId: z.guid().nullable(),
  siteReference: z.string().nullable(),
  bankId: z.guid().nullable(),
  bankPosition: z.number().int().nullable(),
  replacesUnitId: z.guid().nullable(),
  firmwareLevel: z.string().nullable(),
  firmwareReadAt: z.iso.datetime({ offset: true }).nullable(),
  createdAt: z.iso.datetime({ offset: true }),
  version: z.number().int(),
};

export const Unit = z.object(unitFields).meta({ id: "Unit" });
export const SwappedUnits = z.object({ old: Unit, new: Unit }).meta({ id: "SwappedUnits" });

/** Bound on each list of a unit's life. */
export const LIFE_ENTRIES_MOST = 200;

const swaps = z.array(
  z.object({ unitId: z.guid(), serial: z.string(), state: z.string(), at: z.string() }),
);

export const UnitWithLife = z
  .object({
    ...unitFields,
    events: z
      .array(
        z.object({
          id: z.guid(),
          kind: z.string(),
          at: z.iso.datetime({ offset: true }),
          siteId: z.guid().nullable(),
          siteReference: z.string().nullable(),
          jobId: z.guid().nullable(),
          jobReference: z.string().nullable(),
          personId: z.guid().nullable(),
          personName: z.string().nullable(),
          otherUnitId: z.guid().nullable().describe("the other unit of a swap"),
          otherSerial: z.string().nullable(),
          note: z.string().nullable(),
        }),
      )
      .describe(`the newest ${LIFE_ENTRIES_MOST}, oldest first`),
    firmwareReadings: z.array(
      z.object({
        id: z.guid(),
        level: z.string(),
        readAt: z.iso.datetime({ offset: true }),
        source: z.string(),
        jobId: z.guid().nullable(),
        personId: z.guid().nullable(),
        flag: z.string().nullable(),
      }),
    ),
    replaces: swaps.describe("the units it stands in for, the nearest first"),
    replacedBy: swaps.describe("the units that came after it, the nearest first"),
  })
  .meta({ id: "UnitWithLife" });

export const UnitPage = pageOf(Unit);
export const UnitQuery = z.strictObject({
  ...PAGE_QUERY,
  serial: z.string().min(1).max(64).optional().describe("the serial or a part of it"),
  modelId: z.guid().optional(),
  siteId: z.guid().optional(),
  state: z.enum(UNIT_STATES).optional(),
  firmwareLevel: typedText(128).optional(),
});
