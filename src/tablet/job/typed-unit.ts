// Requirement: units are metric or US customary per firm (blueprint: interface conventions). A
// plan is written in the maker's units; who reads instruments of the other system types in that,
// and sees the limit in it too, so that a number is not typed under the wrong unit.
import { describeInterval, type Interval } from "../../domain/acceptance/interval.ts";
import { convert, convertDifference } from "../../domain/quantities/convert.ts";
import { counterpart } from "../../domain/quantities/display-unit.ts";
import { isUnit, type Unit } from "../../domain/quantities/units.ts";
import type { Packet } from "../../features/tablet/schemas.ts";
import type { Draft } from "./draft.ts";

type Firm = Pick<Packet, "unitSystem">;

/** The customary unit where the firm's system is US customary; else the unit of the plan. */
export const firstUnit = (unit: string, { unitSystem }: Firm): string =>
  unitSystem === "us" && isUnit(unit) ? counterpart(unit, unitSystem) : unit;

/** The unit of what stands in the draft; a number typed before units were noted is the plan's. */
export function typedUnit(unit: string, draft: Draft, firm: Firm): string {
  return draft.unit ?? (draft.number ? unit : firstUnit(unit, firm));
}

/** "more than 1.9685 in", rounded for reading; undefined where the two units agree. */
export function neededHere(interval: Interval, unit: string, firm: Firm): string | undefined {
  const here = firstUnit(unit, firm);
  if (here === unit || !isUnit(unit) || !isUnit(here)) return undefined;
  return describeInterval(converted(interval, unit, here), here);
}

const DIGITS_SHOWN = 5;

function converted(interval: Interval, from: Unit, to: Unit): Interval {
  const { low, high, nominal, lowIncluded, highIncluded } = interval;
  const end = (value: number): number => rounded(convert(value, from, to));
  return {
    ...{ lowIncluded, highIncluded },
    ...(low === undefined ? {} : { low: end(low) }),
    ...(high === undefined ? {} : { high: end(high) }),
    ...(nominal ? { nominal: nominalIn(nominal, from, to) } : {}),
  };
}

function nominalIn(
  { value, tolerance }: NonNullable<Interval["nominal"]>,
  from: Unit,
  to: Unit,
): NonNullable<Interval["nominal"]> {
  return {
    value: rounded(convert(value, from, to)),
    tolerance:
      typeof tolerance === "number" ? rounded(convertDifference(tolerance, from, to)) : tolerance,
  };
}

const rounded = (value: number): number => Number(value.toPrecision(DIGITS_SHOWN));
