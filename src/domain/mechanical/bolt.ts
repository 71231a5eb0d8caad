// What the bolt calculations share: their input, the refusals, and the caution that matters most.
import { z } from "zod";
import type { Outcome } from "./calculation.ts";
import { findThread, type MetricThread } from "./metric-thread.ts";
import { findPropertyClass, type PropertyClass } from "./property-class.ts";

export const BOLT_CAUTION =
  "Steel-bolt torques are not terminal torques: the equipment's instructions govern. " +
  "Use them only for structural steel bolts whose maker states no torque.";

export const boltInput = {
  /** `M8`, or `M8x1` for a fine thread. */
  thread: z.string().min(2).max(10),
  propertyClass: z.string().min(3).max(6),
};

export interface Bolt {
  ok: true;
  thread: MetricThread;
  propertyClass: PropertyClass;
}

/** The bolt's data, or the refusal that the calculation hands back. */
export function findBolt(input: {
  thread: string;
  propertyClass: string;
}): Bolt | Extract<Outcome, { ok: false }> {
  const thread = findThread(input.thread);
  if (!thread.ok) return { ok: false, reason: "out-of-range", problem: thread.problem };
  const strength = findPropertyClass(input.propertyClass);
  if (!strength.ok) return { ok: false, reason: "not-applicable", problem: strength.problem };
  return { ok: true, thread: thread.thread, propertyClass: strength.propertyClass };
}
