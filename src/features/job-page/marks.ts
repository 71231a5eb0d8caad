import type { MessageKey } from "../../language/catalogue.ts";
import type { ShownLanguage } from "../../language/languages.ts";
import { say } from "../../language/say.ts";

interface Mark {
  tag: string;
  mark: string;
  key: MessageKey;
}

const NOT_MET: Mark = { tag: "bad", mark: "✕", key: "job.outcome.notMet" };
const MARKS: Readonly<Record<string, Mark>> = {
  pass: { tag: "good", mark: "✓", key: "job.outcome.met" },
  conceded: { tag: "warn", mark: "◇", key: "job.outcome.conceded" },
  "not-applicable": { tag: "plain", mark: "–", key: "job.outcome.notApplicable" },
  missing: { tag: "plain", mark: "○", key: "job.outcome.missing" },
  marginal: { tag: "warn", mark: "▲", key: "job.outcome.marginal" },
  "stale-instrument": { tag: "bad", mark: "✕", key: "job.outcome.staleInstrument" },
  "out-of-sequence": { tag: "bad", mark: "✕", key: "job.outcome.outOfSequence" },
};

/** An outcome for the eye: a colour, a sign and a word, so that none of them says it alone. */
export function markOf(outcome: string, language: ShownLanguage) {
  const { tag, mark, key } = MARKS[outcome] ?? NOT_MET;
  return { tag, mark, word: say(language, key) };
}
