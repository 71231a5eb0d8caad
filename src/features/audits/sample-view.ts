import type { ShownLanguage } from "../../language/languages.ts";
import { dayAndTime, plainDay } from "../../language/moments.ts";
import { say } from "../../language/say.ts";
import type { NOTHING, ReadSample } from "./keep-sample.ts";
import { shownSample } from "./sample-shown.ts";
import type { SampleRow } from "./sample-store.ts";

const day = (language: ShownLanguage, text: string): string =>
  plainDay(language, text.slice(0, 10));

/** A sample as a line of the list. */
export function sampleRow(
  row: SampleRow,
  counts: typeof NOTHING | undefined,
  language: ShownLanguage,
) {
  const sample = shownSample(row, counts);
  return {
    ...sample,
    ...{ fromDay: day(language, sample.from), toDay: day(language, sample.to) },
    keptDay: day(language, sample.keptAt),
    stateName: say(language, `audits.state.${sample.state}`),
    tag: { open: "warn", accepted: "good", rejected: "bad" }[sample.state],
    mark: { open: "○", accepted: "✓", rejected: "✕" }[sample.state],
    reject: sample.accept + 1,
  };
}

/** A sample as its page shows it. */
export function sampleView(
  { row, jobs, counts }: ReadSample,
  language: ShownLanguage,
  timeZone: string,
) {
  return {
    sample: sampleRow(row, counts, language),
    jobs: jobs.map(({ jobId, position, job, closedAt, looks, findings }) => ({
      ...{ jobId, position, reference: job.reference, title: job.title, findings },
      closed: day(language, closedAt.toISOString()),
      isReopened: job.closeOutId === null,
      isSeen: looks.length > 0 || findings.length > 0,
      looks: looks.map(({ person, at, remark }) => ({
        ...{ by: person.name, at: dayAndTime(language, at, timeZone), remark },
      })),
    })),
  };
}
