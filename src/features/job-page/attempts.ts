// Every answer as a page shows it: what was read, with what, by whom and when, and the verdict of
// then. A later attempt does not take the earlier ones away.
import type { UnitSystem } from "../../domain/quantities/display-unit.ts";
import type { ShownLanguage } from "../../language/languages.ts";
import { dayAndTime } from "../../language/moments.ts";
import { say } from "../../language/say.ts";
import { asKept } from "../../web/as-kept.ts";
import type { AnswerRow, JobRecord } from "../job-record/store.ts";
import { markOf } from "./marks.ts";
import { valueText } from "./value-text.ts";

export interface Attempt {
  id: string;
  value: string | undefined;
  by: string;
  at: string;
  instrument: string | undefined;
  note: string | null;
  sentence: string;
  doubt: string | undefined;
  photos: number;
  tag: string;
  mark: string;
  word: string;
}

export interface Shown {
  language: ShownLanguage;
  unitSystem: UnitSystem;
  names: ReadonlyMap<string, string>;
  doubts: ReadonlyMap<string, string>;
}

export function attemptOf(
  answer: AnswerRow,
  { job, instruments }: Pick<JobRecord, "job" | "instruments">,
  { language, unitSystem, names, doubts }: Shown,
): Attempt {
  const instrument = instruments.find(({ id }) => id === answer.instrumentId);
  const { sentence } = answer.verdict as { sentence: string };
  return {
    id: answer.id,
    value: valueText(answer.value, unitSystem, language),
    by: names.get(answer.personId) ?? say(language, "job.someone"),
    at: dayAndTime(language, new Date(answer.takenAt), job.timeZone),
    instrument: instrument?.reference,
    note: asKept(language, answer.note),
    sentence,
    doubt: answer.outcome === "stale-instrument" ? undefined : doubts.get(answer.id),
    photos: answer.photos.length,
    ...markOf(answer.outcome, language),
  };
}
