import { type Finding, lengthText, type Verdict } from "../../domain/siting/finding.ts";
import type { Survey } from "../../domain/siting/survey.ts";

const MARKS: Readonly<Record<Verdict, { tag: string; mark: string; word: string }>> = {
  breaks: { tag: "bad", mark: "✕", word: "breaks" },
  "needs-survey": { tag: "warn", mark: "?", word: "needs survey" },
  meets: { tag: "good", mark: "✓", word: "met" },
  "not-applicable": { tag: "plain", mark: "–", word: "does not apply" },
};
/** A page is read by a person; the interface gives more. */
const ROWS_MOST = 200;

/** The findings as a table's rows; those that do not apply apart, for they are many. */
export function shownFindings(survey: Survey, findings: readonly Finding[]) {
  const applying = findings.filter(({ verdict }) => verdict !== "not-applicable");
  const others = findings.filter(({ verdict }) => verdict === "not-applicable");
  return {
    findings: applying.slice(0, ROWS_MOST).map((finding) => row(survey, finding)),
    leftOut: Math.max(0, applying.length - ROWS_MOST),
    notApplying: others.slice(0, ROWS_MOST).map((finding) => row(survey, finding)),
  };
}

function row(survey: Survey, finding: Finding) {
  const { measured, required, margin, unit, bound } = finding;
  const text = (value: number): string =>
    unit === "mm" ? lengthText(value, survey.displayLength) : `${rounded(value)} ${unit}`;
  const figures =
    measured === undefined || required === undefined || margin === undefined
      ? {}
      : {
          measured: text(measured),
          required: `${bound === "maximum" ? "at most" : "at least"} ${text(required)}`,
          margin: `${margin < 0 ? "−" : "+"}${text(Math.abs(margin))}`,
        };
  const { title, sentence, source, edition, certainty, caution } = finding;
  return {
    ...MARKS[finding.verdict],
    title,
    sentence,
    source,
    edition,
    certainty,
    caution,
    ...figures,
  };
}

const rounded = (value: number): number => Math.round(value * 1000) / 1000;
