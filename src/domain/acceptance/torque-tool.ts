// Requirement: what ISO 6789-1 permits a torque tool to deviate, and how long it stays calibrated.
// The figures change with the edition and were mostly had from memory: they are data, each with its
// edition and how sure we are of it, and they warn; they never judge a reading.

import type { InstrumentFacts } from "../plan/context.ts";
import { convert } from "../quantities/convert.ts";
import { isUnit, quantityOf } from "../quantities/units.ts";

/** Classes of instrument that are torque tools, whose uses are counted in cycles. */
export const TORQUE_TOOL_CLASSES = ["torque-wrench", "torque-screwdriver"] as const;

/** Letters by type: I indicates the torque, II is set to it (ISO 6789-1:2017 clause 4). */
export const TORQUE_CLASSES = {
  I: ["A", "B", "C", "D", "E"],
  II: ["A", "B", "C", "D", "E", "F", "G"],
} as const;
export type TorqueType = keyof typeof TORQUE_CLASSES;
export interface TorqueTool {
  type: TorqueType;
  class: string;
}

export interface PermittedDeviation {
  /** Percent either way, of a tool whose largest torque is at most, or above, `splitNm`. */
  smallPercent: number;
  largePercent: number;
  splitNm: number;
  edition: string;
  certainty: "seen in a secondary page" | "from memory";
}

const EDITION = "ISO 6789-1:2017, 5.1.5";
const SPLIT = { splitNm: 10, edition: EDITION } as const;
const graded = { smallPercent: 6, largePercent: 4, ...SPLIT };
const even = { smallPercent: 6, largePercent: 6, ...SPLIT };
const memory = { certainty: "from memory" } as const;

const PERMITTED: Readonly<Record<string, PermittedDeviation>> = {
  "I A": { ...even, ...memory },
  "I B": { ...graded, ...memory },
  "I C": { ...graded, ...memory },
  "I D": { ...even, ...memory },
  "I E": { ...graded, ...memory },
  "II A": { ...graded, certainty: "seen in a secondary page" },
  "II B": { ...graded, ...memory },
  "II C": { ...graded, ...memory },
  "II D": { ...even, ...memory },
  "II E": { ...even, ...memory },
  "II F": { ...even, ...memory },
  "II G": { ...even, ...memory },
};

/** From one calibration to the next unless the firm says otherwise, whichever comes first. */
export const TORQUE_INTERVAL = {
  months: 12,
  cycles: 5000,
  edition: "ISO 6789-1:2017, 5.3",
  certainty: "from memory",
} as const;

/** Whether an instrument's class is one of torque tools. */
export const isTorqueTool = (instrumentClass: string): boolean =>
  TORQUE_TOOL_CLASSES.some((known) => known === instrumentClass);

/** Whether the type has a class of this letter. */
export const isTorqueClass = ({ type, class: letter }: TorqueTool): boolean =>
  TORQUE_CLASSES[type].some((known) => known === letter);

/** What the standard permits a tool of this type and class; undefined for a class that is none. */
export const permittedDeviation = (tool: TorqueTool): PermittedDeviation | undefined =>
  PERMITTED[`${tool.type} ${tool.class}`];

/**
 * A warning where the stated accuracy is looser than what the standard permits such a tool, at the
 * end of its range. A tool whose largest torque is unknown is compared with the looser figure.
 * @returns one sentence; undefined where nothing is stated or it is within
 */
export function accuracyWarning(
  tool: TorqueTool,
  { accuracy, range }: Pick<InstrumentFacts, "accuracy" | "range">,
): string | undefined {
  const permitted = permittedDeviation(tool);
  if (!permitted || !accuracy) return undefined;
  const { percentOfSetting = 0, percentOfReading = 0, percentOfRange = 0 } = accuracy;
  const stated = percentOfSetting + percentOfReading + percentOfRange;
  const largestNm = range && torqueNm(range);
  const isLarge = largestNm !== undefined && largestNm > permitted.splitNm;
  const percent = isLarge ? permitted.largePercent : permitted.smallPercent;
  if (stated <= percent) return undefined;
  const size =
    largestNm === undefined ? "" : ` ${isLarge ? "above" : "up to"} ${permitted.splitNm} N·m`;
  return (
    `±${stated} % is stated; ${permitted.edition} (${permitted.certainty}) permits ±${percent} % ` +
    `for type ${tool.type} class ${tool.class}${size}.`
  );
}

function torqueNm({ max, unit }: NonNullable<InstrumentFacts["range"]>): number | undefined {
  return isUnit(unit) && quantityOf(unit) === "torque" ? convert(max, unit, "N·m") : undefined;
}
