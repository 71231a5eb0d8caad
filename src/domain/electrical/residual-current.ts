// An RCD must trip in time, and a selective one not before its delay, or it takes the
// upstream device's place. IEC 61008-1 / 61009-1 Table 1; UL 943 for class A GFCIs.
import { outside } from "./bounds.ts";
import { type Figure, figure, refuse } from "./calculation.ts";
import { choose, type RowFound } from "./look-up.ts";
import {
  GFCI_CLASS_A,
  RCD_TRIP_CURRENTS,
  RCD_TRIP_TIMES,
  type RcdTripRow,
  type TripCurrentRow,
} from "./tables/rcd-trip-limits.ts";

export const RCD_TYPES = ["general", "S"] as const;
export const WAVEFORMS = ["sinusoidal", "pulsating"] as const;

/** The row of trip limits for a type and a multiple (1, 2 or 5) of the rated current. */
export function rcdTripRow(type: string, multiple: number): RowFound<RcdTripRow> {
  const known = choose("RCD type", type, RCD_TYPES);
  if (!known.ok) return known;
  if (multiple === 0.5) {
    const problem =
      "At half the rated residual current an RCD must not trip, so there is no longest time; " +
      "record whether it tripped.";
    return refuse("not-applicable", problem);
  }
  const row = RCD_TRIP_TIMES.rows.find((candidate) => {
    return candidate.type === known.word && candidate.multiple === multiple;
  });
  if (row) return { ok: true, row };
  const problem =
    `${RCD_TRIP_TIMES.clause} as held here gives trip times at 1, 2 and 5 times the rated ` +
    `residual current, not at ${multiple}; test at one of these.`;
  return refuse("out-of-range", problem);
}

/** Longest allowed trip time, ms. */
export function rcdMaxTripMs(type: string, multiple: number): Figure {
  const found = rcdTripRow(type, multiple);
  return found.ok ? figure(found.row.maxMs) : found;
}

/** Shortest allowed trip time, ms: 0 for a type without intentional delay. */
export function rcdMinTripMs(type: string, multiple: number): Figure {
  const found = rcdTripRow(type, multiple);
  return found.ok ? figure(found.row.minMs ?? 0) : found;
}

/** The band of trip current, as multiples of the rated residual current. */
export function rcdTripCurrentRow(
  waveform: string,
  residualCurrentMa: number,
): RowFound<TripCurrentRow> {
  const refusal = outside({ residualCurrentMa });
  if (refusal) return refusal;
  const known = choose("waveform", waveform, WAVEFORMS);
  if (!known.ok) return known;
  const row = RCD_TRIP_CURRENTS.rows.find((candidate) => {
    const inBand = residualCurrentMa > candidate.aboveMa && residualCurrentMa <= candidate.upToMa;
    return candidate.waveform === known.word && inBand;
  });
  return { ok: true, row: row as TripCurrentRow };
}

/**
 * Longest trip time of a class A ground-fault circuit interrupter: (20 / I)^1.43, in s.
 *
 * @param faultCurrentMa fault current to ground, mA, from 6 to 264
 * Source: UL 943. Refused between 4 and 6 mA (may trip), below (must not) and above 264 mA.
 */
export function gfciMaxTripS(faultCurrentMa: number): Figure {
  const refusal = outside({ leakageCurrentMa: faultCurrentMa });
  if (refusal) return refusal;
  const { tripFromMa, tripByMa, curveUpToMa, numeratorMa, exponent, clause } = GFCI_CLASS_A;
  if (faultCurrentMa < tripByMa) {
    const expected = faultCurrentMa < tripFromMa ? "must not trip" : "may or may not trip";
    const problem =
      `A class A device ${expected} at ${faultCurrentMa} mA (${clause}), so there is no ` +
      `longest time; test at ${tripByMa} mA or more.`;
    return refuse("not-applicable", problem);
  }
  if (faultCurrentMa > curveUpToMa) {
    const problem =
      `The ${clause} curve ends at ${curveUpToMa} mA; ${faultCurrentMa} mA lies beyond it. ` +
      "Test within the curve.";
    return refuse("out-of-range", problem);
  }
  return figure((numeratorMa / faultCurrentMa) ** exponent);
}
