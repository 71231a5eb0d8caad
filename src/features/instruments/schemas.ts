import { z } from "zod";
import { isTorqueClass, TORQUE_CLASSES } from "../../domain/acceptance/torque-tool.ts";
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

const torqueTool = z
  .strictObject({
    type: z.enum(["I", "II"]).describe("I indicates the torque, II is set to it"),
    class: z.enum(TORQUE_CLASSES.II).describe("letter within the type"),
  })
  .refine(isTorqueClass, { path: ["class"], error: "is no class of this type" })
  .describe("torque tools: type and class by ISO 6789-1")
  .meta({ examples: [{ type: "II", class: "A" }] });

const editable = {
  reference: shortText(40).meta({ examples: ["IT-07"] }),
  name: shortText(120).meta({ examples: ["Insulation tester, van 2"] }),
  serial: shortText(64).meta({ examples: ["4471-0932"] }),
  accuracy: accuracy.nullable().optional(),
  rangeMax: rangeMax.nullable().optional(),
  resolution: resolution.nullable().optional(),
  torqueTool: torqueTool.nullable().optional(),
  intervalMonths: z.number().int().min(1).max(120).describe("from one calibration to the next"),
  intervalCycles: z
    .number()
    .int()
    .min(1)
    .max(1_000_000)
    .nullable()
    .optional()
    .describe(
      "torque tools: uses from one calibration to the next, 5000 if left out; null for none",
    ),
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

const Unfit = z.object({
  code: z.string(),
  sentence: z.string(),
  toClear: z.string().describe("the way out"),
});

const instrumentFields = {
  id: z.guid(),
  reference: z.string(),
  name: z.string(),
  instrumentClass: z.enum(INSTRUMENT_CLASSES),
  serial: z.string(),
  accuracy: z.record(z.string(), z.number()).nullable(),
  rangeMax: z.object({ value: z.number(), unit: z.string() }).nullable(),
  resolution: z.object({ step: z.number(), unit: z.string() }).nullable(),
  torqueTool: z.object({ type: z.string(), class: z.string() }).nullable(),
  warnings: z.array(z.string()).describe("where the stated accuracy is looser than ISO 6789-1"),
  intervalMonths: z.number().int(),
  intervalCycles: z.number().int().nullable(),
  calibratedOn: z.iso.date().nullable().describe("of the last calibration"),
  dueOn: z.iso
    .date()
    .nullable()
    .describe("next calibration; null when it never had one or failed the last"),
  cyclesSinceCalibration: z
    .number()
    .int()
    .nullable()
    .describe("torque tools: fasteners tightened on jobs and uses entered, since the last passed"),
  cyclesLeft: z.number().int().nullable(),
  fitNow: z.boolean().describe("whether a reading taken with it now would count"),
  reason: Unfit.nullable().describe("why it is not fit"),
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
  fit: z.stringbool().optional().describe("whether readings taken with it now would count"),
  retired: z.stringbool().default(false).describe("list retired instruments instead"),
});
