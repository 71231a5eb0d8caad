import { z } from "zod";
import { FIRMWARE_SEVERITIES } from "../../domain/firmware/deadline.ts";
import { dateTime, longText, plainDate, shortText } from "../../web/fields.ts";
import { PAGE_QUERY, pageOf } from "../../web/paging.ts";

const level = shortText(128).meta({ examples: ["2.4.0"] });
const severity = z.enum(FIRMWARE_SEVERITIES);

const editable = {
  severity,
  releasedOn: plainDate(),
  notes: longText(4000).nullable().optional(),
  fileSha256: z
    .string()
    .regex(/^[0-9a-f]{64}$/, "must be a SHA-256 in lower-case hexadecimal")
    .nullable()
    .optional()
    .describe("checksum of the file the maker gives out"),
};

export const NewRelease = z.strictObject({ modelId: z.guid(), level, ...editable }).meta({
  examples: [
    {
      modelId: "019ac4a1-3333-7cc1-9d6a-0c8f6f0b7a11",
      level: "2.4.0",
      severity: "safety",
      releasedOn: "2026-11-20",
      notes: "Mends the over-temperature cut-out.",
    },
  ],
});
export type NewRelease = z.infer<typeof NewRelease>;

export const ReleaseEdit = z
  .strictObject(editable)
  .partial()
  .describe("Model and level stay: targets and keys rest on them. Withdraw a mistyped release.");
export type ReleaseEdit = z.infer<typeof ReleaseEdit>;

export const Release = z
  .object({
    id: z.guid(),
    modelId: z.guid(),
    level: z.string(),
    severity,
    releasedOn: z.string(),
    notes: z.string().nullable(),
    fileSha256: z.string().nullable(),
    withdrawnOn: z.string().nullable(),
    version: z.number().int(),
  })
  .meta({ id: "FirmwareRelease" });

export const ReleasePage = pageOf(Release);
export const ReleaseQuery = z.strictObject({
  ...PAGE_QUERY,
  modelId: z.guid().optional(),
  severity: severity.optional(),
  withdrawn: z.stringbool().optional().describe("only withdrawn ones, or only the others"),
});

export const NewTarget = z
  .strictObject({
    releaseId: z.guid(),
    dueOn: plainDate().optional().describe("last day on time; from the severity if left out"),
  })
  .meta({ examples: [{ releaseId: "019ac4a1-2222-7cc1-9d6a-0c8f6f0b7a11" }] });

export const Target = z
  .object({
    modelId: z.guid(),
    releaseId: z.guid(),
    level: z.string(),
    severity,
    withdrawnOn: z
      .string()
      .nullable()
      .describe("when its release was withdrawn: nothing is due by it, set another target"),
    setAt: z.string(),
    setById: z.guid().nullable(),
    dueOn: z.string(),
    version: z.number().int(),
  })
  .meta({ id: "FirmwareTarget" });

export const NewFirmwareReading = z
  .strictObject({
    level,
    readAt: dateTime().describe("when it was read off the unit"),
    source: z.enum(["api", "import"]).default("api"),
    jobId: z.guid().optional().describe("open job it was read on; it goes on that job's ledger"),
  })
  .meta({ examples: [{ level: "2.4.0", readAt: "2026-11-25T09:30:00+00:00", source: "api" }] });

export const FirmwareReading = z
  .object({
    id: z.guid(),
    unitId: z.guid(),
    level: z.string(),
    readAt: z.string(),
    source: z.string(),
    jobId: z.guid().nullable(),
    personId: z.guid().nullable(),
    flag: z.enum(["backwards", "not-orderable"]).nullable().describe("kept, but worth a look"),
  })
  .meta({ id: "FirmwareReading" });

export const DUE_STATES = ["due", "overdue", "unknown-level", "not-orderable"] as const;

const DueUnit = z.object({
  id: z.guid(),
  serial: z.string(),
  modelCode: z.string(),
  state: z.enum(DUE_STATES),
  from: z.string().nullable().describe("level last read off it; null when none was"),
  to: z.string().describe("level of the target"),
  severity,
  dueOn: z.string(),
  daysLeft: z.number().int().describe("negative: days over"),
});

export const DueSite = z
  .object({
    id: z.guid(),
    reference: z.string(),
    addressLine: z.string(),
    locality: z.string(),
    region: z.string(),
    timeZone: z.string(),
    nextVisit: z
      .object({
        id: z.guid(),
        jobId: z.guid(),
        jobReference: z.string(),
        startsAt: z.string(),
      })
      .nullable()
      .describe("next booked visit of an open firmware job here"),
    units: z.array(DueUnit).describe("below their target"),
    unclear: z
      .array(DueUnit)
      .describe("may be below it: the level is unknown or cannot be ordered; read it off the unit"),
  })
  .meta({ id: "DueSite" });

export const DuePage = pageOf(DueSite);

/** `dueBefore` and `overdue` ask for the day of a model's target: of its unclear units too. */
const dueFilters = {
  severity: severity.optional(),
  modelId: z.guid().optional(),
  region: z.string().max(40).optional(),
  overdue: z.stringbool().optional().describe("only what is past its day"),
  dueBefore: plainDate().optional().describe("only what is due before this day"),
  dueFrom: plainDate().optional().describe("only what is due on this day or later"),
};
export const DueQuery = z.strictObject({ ...PAGE_QUERY, ...dueFilters });
export const DueCountQuery = z.strictObject(dueFilters);
export type DueFilter = z.infer<typeof DueCountQuery>;

export const DueCounts = z
  .object({
    sites: z.number().int().describe("sites with units below their target"),
    units: z.number().int().describe("units below their target"),
    overdue: z.number().int().describe("of these, past their day"),
    unknown: z.number().int().describe("besides: units whose level is unknown or not orderable"),
    bySeverity: z.object({
      safety: z.number().int(),
      important: z.number().int(),
      routine: z.number().int(),
    }),
  })
  .meta({ id: "DueCounts" });
