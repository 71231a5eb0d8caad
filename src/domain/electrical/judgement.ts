// A reading is compared with the unrounded limit: published tables round, and a reading
// between the rounded and the true value would otherwise change verdict with the print
// (maximum earth-loop impedance of a 32 A type B breaker: 1.0925 Ω, printed 1.09 or 1.10).
import { settled, shown } from "./number-text.ts";

export interface Judgement {
  passes: boolean;
  /** Distance to the nearest limit, in `unit`; negative when the reading fails. */
  margin: number;
  unit: string;
  sentence: string;
}

// Readings and limits come out of binary arithmetic: packs at 52.8 V and 52.6 V must not
// differ by more than 0.2 V over the sixteenth digit.
const NOISE = 1e-9;

function judge(margin: number, scale: number, comparison: string, unit: string): Judgement {
  const room = Math.abs(margin) <= NOISE * Math.abs(scale) ? 0 : settled(margin);
  const passes = room >= 0;
  const verdict = passes ? `passes with ${shown(room)}` : `fails by ${shown(-room)}`;
  return { passes, margin: room, unit, sentence: `${comparison}: ${verdict} ${unit}.` };
}

/** Passes when the reading is at or below the limit. */
export function atMost(reading: number, limit: number, unit: string): Judgement {
  const comparison = `${shown(reading)} ${unit} against at most ${shown(limit)} ${unit}`;
  return judge(limit - reading, limit, comparison, unit);
}

/** Passes when the reading is at or above the limit. */
export function atLeast(reading: number, limit: number, unit: string): Judgement {
  const comparison = `${shown(reading)} ${unit} against at least ${shown(limit)} ${unit}`;
  return judge(reading - limit, limit, comparison, unit);
}

/** Passes when the reading lies between two limits, both allowed. */
export function within(reading: number, min: number, max: number, unit: string): Judgement {
  const range = `against ${shown(min)} to ${shown(max)} ${unit}`;
  const margin = Math.min(reading - min, max - reading);
  const scale = Math.max(Math.abs(min), Math.abs(max));
  return judge(margin, scale, `${shown(reading)} ${unit} ${range}`, unit);
}
