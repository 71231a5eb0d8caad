// Readings of a job that were judged with an instrument about which something was found later. What
// was judged stays; this is said beside it.
import {
  type DoubtSpan,
  doubtOn,
  doubtSpans,
  doubtWords,
} from "../../domain/acceptance/instrument-doubt.ts";
import type { AnswerRow, InstrumentRow } from "./store.ts";

/**
 * What is later known of the instrument, in words, by the answer's id. An answer that was refused
 * for its instrument already is not in doubt.
 */
export function doubtsOf(record: {
  answers: readonly AnswerRow[];
  instruments: readonly InstrumentRow[];
}): ReadonlyMap<string, string> {
  const spans = new Map<string, DoubtSpan[]>(
    record.instruments.map((instrument) => [instrument.id, doubtSpans(instrument)]),
  );
  const words = new Map<string, string>();
  for (const { id, instrumentId, takenAt, outcome } of record.answers) {
    if (instrumentId === null || outcome === "stale-instrument") continue;
    const doubt = doubtOn(spans.get(instrumentId) ?? [], takenAt);
    if (doubt) words.set(id, doubtWords(doubt));
  }
  return words;
}
