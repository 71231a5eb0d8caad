// Which instruments an item may be read with, and how they stand today.
import { instrumentState } from "../../domain/acceptance/calibration.ts";
import type { Item } from "../../domain/plan/item.ts";
import type { JobState } from "./job-state.ts";
import type { TabletInstrument } from "./packet-facts.ts";

export interface InstrumentChoice {
  instrument: TabletInstrument;
  /** What is wrong with it; undefined when it is fit. */
  fault?: string;
  /** Last day it is in date; undefined when it is not. */
  dueOn?: string;
}

/** The class the item is read with; a torque comes from a torque tool, said or not. */
export const instrumentClass = (item: Item): string | undefined =>
  item.instrument?.class ?? (item.kind === "tighten" ? "torque-wrench" : undefined);

/** The instruments of a class, fit ones first, of those the ones booked for this job first. */
export function instrumentChoices(job: JobState, wanted: string, now: string): InstrumentChoice[] {
  return job.facts.instruments
    .filter((instrument) => instrument.class === wanted)
    .map((instrument) => choiceOf(job, instrument, wanted, now))
    .sort((a, b) => rank(a) - rank(b));
}

function choiceOf(
  job: JobState,
  instrument: TabletInstrument,
  wanted: string,
  now: string,
): InstrumentChoice {
  const { timeZone } = job.packet.site;
  const state = instrumentState(instrument, wanted, now, timeZone);
  if (!state.fit) return { instrument, fault: state.sentence };
  const passed = instrument.calibrations.filter((calibration) => calibration.passed);
  const dueOn = passed
    .map(({ due }) => due)
    .sort()
    .at(-1);
  return dueOn === undefined ? { instrument } : { instrument, dueOn };
}

const rank = ({ instrument, fault }: InstrumentChoice): number =>
  (fault === undefined ? 0 : 2) + (instrument.booked ? 0 : 1);
