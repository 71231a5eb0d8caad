// Requirement: where an item asks for a class of instrument, or its verdict rests on an
// instrument's accuracy, the instrument must be named, known and fit on the day of the reading.
import type { InstrumentFacts } from "../plan/context.ts";
import type { DecisionRule, Item } from "../plan/item.ts";
import type { Answer } from "./answer.ts";
import { type InstrumentState, instrumentState } from "./calibration.ts";
import { cyclesOf, stateByCycles } from "./torque-cycles.ts";
import { type Finding, missing } from "./verdict.ts";

/** What is wrong with the instrument of an answer; undefined when nothing is. */
export function instrumentFinding(
  item: Item,
  answer: Answer,
  instrument: InstrumentFacts | undefined,
  facts: { rule: DecisionRule; timeZone: string },
): Finding | undefined {
  const wanted = wantedClass(item);
  if (!instrument) return wanted === undefined ? undefined : absent(answer, wanted);
  if (wanted === undefined && facts.rule === "simple") return undefined;
  const state = stateFor(instrument, wanted, answer, facts.timeZone);
  if (state.fit) return undefined;
  const { code, sentence, toClear } = state;
  return { outcome: "stale-instrument", clears: false, code, sentence, toClear };
}

function stateFor(
  instrument: InstrumentFacts,
  wanted: string | undefined,
  answer: Answer,
  timeZone: string,
): InstrumentState {
  const state = instrumentState(instrument, wanted, answer.takenAt, timeZone);
  if (!state.fit || instrument.intervalCycles === undefined) return state;
  return stateByCycles(instrument, answer, cyclesOf(answer.value), timeZone);
}

/** A torque comes from a torque tool, whether the plan says so or not. */
const wantedClass = (item: Item): string | undefined =>
  item.instrument?.class ?? (item.kind === "tighten" ? "torque-wrench" : undefined);

function absent({ instrumentId }: Answer, wanted: string): Finding {
  const toClear = `Name the ${wanted} that was used, or read again with one.`;
  return instrumentId === undefined
    ? missing(
        "instrument-missing",
        `No instrument is named; this is read with a ${wanted}.`,
        toClear,
      )
    : missing("instrument-unknown", "The instrument named is not one of the firm's.", toClear);
}
