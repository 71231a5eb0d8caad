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
  hardwareRevisions: z
    .array(shortText(40))
    .max(50)
    .optional()
    .describe("hardware revisions it fits; every one if left out"),
  fromMin: level
    .nullable()
    .optional()
    .describe("stepping stone: it may be installed over this level or a later one"),
  fromBelow: level.nullable().optional().describe("and only over levels below this one"),
  companions: z
    .array(
      z.strictObject({
        modelId: z.guid(),
        min: level.optional(),
        below: level.optional().describe("levels below this one only"),
      }),
    )
    .max(20)
    .optional()
    .describe("levels that units of other models at the site must have beside it"),
  deadlineDays: z
    .number()
    .int()
    .min(0)
    .max(3650)
    .nullable()
    .optional()
    .describe("days to its day once it is the target; by severity if left out"),
  fileName: shortText(200).nullable().optional(),
  fileBytes: z.number().int().min(1).max(1e12).nullable().optional(),
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
    hardwareRevisions: z.array(z.string()),
    fromMin: z.string().nullable(),
    fromBelow: z.string().nullable(),
    companions: z.array(
      z.object({
        modelId: z.guid(),
        min: z.string().optional(),
        below: z.string().optional(),
      }),
    ),
    deadlineDays: z.number().int().nullable(),
    fileName: z.string().nullable(),
    fileBytes: z.number().nullable(),
    fileSha256: z.string().nullable(),
    withdrawnOn: z.string().nullable(),
    withdrawnReason: z.string().nullable(),
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

export const TARGET_STATES = ["waiting", "open", "held", "passed"] as const;

export const NewTarget = z
  .strictObject({
    releaseId: z.guid(),
    dueOn: plainDate().optional().describe("last day on time; from the severity if left out"),
    ringId: z.guid().optional().describe("for the sites of this ring only"),
    region: shortText(40).optional().describe("for the sites of this region only"),
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
    id: z.guid(),
    ringId: z.guid().nullable(),
    region: z.string().nullable(),
    state: z
      .enum(TARGET_STATES)
      .describe("waiting: nothing is due by it yet; held: stopped after failures"),
    heldReason: z.string().nullable(),
    openedAt: z.string().nullable(),
    version: z.number().int(),
  })
  .meta({ id: "FirmwareTarget" });

export const ReleaseWithdrawal = z.strictObject({
  reason: longText(1000).optional().describe("why; shown wherever the release is"),
});

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
