import { z } from "zod";
import { INSTRUMENT_CLASSES } from "../../domain/plan/item.ts";
import { UNIT_SYMBOLS } from "../../domain/quantities/units.ts";
import { plainDate, shortText } from "../../web/fields.ts";
import { PAGE_QUERY, pageOf } from "../../web/paging.ts";

const unit = z.enum(UNIT_SYMBOLS).meta({ examples: ["V"] });
const percent = z.number().min(0).max(100).optional();

const accuracy = z
  .strictObject({
    percentOfReading: percent,
    percentOfRange: percent.describe("needs rangeMax"),
    digits: z
      .number()
      .min(0)
      .max(10_000)
      .optional()
      .describe("of its last place; needs resolution"),
    percentOfSetting: percent.describe("torque tools"),
  })
  .refine((parts) => Object.values(parts).some((part) => part !== undefined), {
    error: "must have at least one part",
  })
  .describe("limits of error from the maker's data sheet, their parts added up")
  .meta({ examples: [{ percentOfReading: 0.5, digits: 3 }] });

const rangeMax = z
  .strictObject({ value: z.number().positive().max(1e12), unit })
  .meta({ examples: [{ value: 600, unit: "V" }] });
const resolution = z
  .strictObject({ step: z.number().positive().max(1e12), unit })
  .meta({ examples: [{ step: 0.1, unit: "V" }] });

const editable = {
  reference: shortText(40).meta({ examples: ["IT-07"] }),
  name: shortText(120).meta({ examples: ["Insulation tester, van 2"] }),
  serial: shortText(64).meta({ examples: ["4471-0932"] }),
  accuracy: accuracy.nullable().optional(),
  rangeMax: rangeMax.nullable().optional(),
  resolution: resolution.nullable().optional(),
  intervalMonths: z.number().int().min(1).max(120).describe("from one calibration to the next"),
  intervalCycles: z
    .number()
    .int()
    .min(1)
    .max(1_000_000)
    .nullable()
    .optional()
    .describe("torque tools: uses from one calibration to the next, whichever comes first"),
};

export const NewInstrument = z.strictObject({
  ...editable,
  instrumentClass: z.enum(INSTRUMENT_CLASSES),
  intervalMonths: editable.intervalMonths.default(12),
});

export const InstrumentEdit = z
  .strictObject({
    ...editable,
    retiredOn: plainDate().nullable().describe("out of use from that day; null brings it back"),
  })
  .partial();

const instrumentFields = {
  id: z.guid(),
  reference: z.string(),
  name: z.string(),
  instrumentClass: z.enum(INSTRUMENT_CLASSES),
  serial: z.string(),
  accuracy: z.record(z.string(), z.number()).nullable(),
  rangeMax: z.object({ value: z.number(), unit: z.string() }).nullable(),
  resolution: z.object({ step: z.number(), unit: z.string() }).nullable(),
  intervalMonths: z.number().int(),
  intervalCycles: z.number().int().nullable(),
  calibratedOn: z.iso.date().nullable().describe("of the last calibration"),
  dueOn: z.iso
    .date()
    .nullable()
    .describe("next calibration; null when it never had one or failed the last"),
  retiredOn: z.iso.date().nullable(),
  createdAt: z.iso.datetime({ offset: true }),
  version: z.number().int(),
};

export const Calibration = z
  .object({
    id: z.guid(),
    calibratedOn: z.iso.date(),
    dueOn: z.iso.date(),
    passed: z.boolean(),
    certificate: z.string(),
    createdAt: z.iso.datetime({ offset: true }),
  })
  .meta({ id: "Calibration" });

export const NewCalibration = z.strictObject({
  calibratedOn: plainDate(),
  dueOn: plainDate().optional().describe("calibratedOn plus the instrument's interval if left out"),
  passed: z.boolean(),
  certificate: shortText(120)
    .describe("number of the certificate")
    .meta({ examples: ["CAL-26-1187"] }),
});

export const Instrument = z.object(instrumentFields).meta({ id: "Instrument" });
export const InstrumentWithCalibrations = z
  .object({ ...instrumentFields, calibrations: z.array(Calibration).describe("newest first") })
  .meta({ id: "InstrumentWithCalibrations" });

export const InstrumentPage = pageOf(Instrument);
export const InstrumentQuery = z.strictObject({
  ...PAGE_QUERY,
  instrumentClass: z.enum(INSTRUMENT_CLASSES).optional(),
  dueBefore: plainDate()
    .optional()
    .describe("calibration due before that day, or not in date at all"),
  retired: z.stringbool().default(false).describe("list retired instruments instead"),
});
