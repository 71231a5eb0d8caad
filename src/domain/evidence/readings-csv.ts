// Requirement: the readings of a job can be looked at with any spreadsheet, and nothing in them
// runs there. Source: RFC 4180 (CSV), in UTF-8; a text that begins like a formula gets an
// apostrophe before it (common practice, no source).
import type { CompiledPlan } from "../plan/compile.ts";
import type { AnswerRecord } from "./bag-record.ts";
import { canonicalize } from "./canonical-json.ts";

const COLUMNS = [
  "order",
  "taken_at",
  "stage",
  "item",
  "title",
  "subject",
  "number",
  "unit",
  "value",
  "outcome",
  "clears",
  "sentence",
  "instrument",
  "person",
  "answer",
] as const;

/** One line an answer, in order of receipt, with the verdict it got when it came in. */
export function readingsCsv(
  plan: CompiledPlan,
  answers: readonly AnswerRecord[],
  instruments: ReadonlyMap<string, string>,
): string {
  const rows = answers.map((answer) => {
    const compiled = plan.byId.get(answer.itemId);
    const { number, unit } = measured(answer.value);
    const { outcome, clears, sentence } = answer.verdict;
    return [
      String(answer.receiptOrder),
      answer.takenAt,
      compiled?.stageId ?? "",
      answer.itemId,
      compiled?.item.title ?? "",
      answer.subject,
      number,
      unit,
      canonicalize(answer.value),
      outcome,
      clears ? "yes" : "no",
      sentence,
      answer.instrumentId === null ? "" : (instruments.get(answer.instrumentId) ?? ""),
      answer.personId,
      answer.id,
    ];
  });
  return [COLUMNS, ...rows].map((row) => `${row.map(csvCell).join(",")}\r\n`).join("");
}

function measured(value: unknown): { number: string; unit: string } {
  if (typeof value !== "object" || value === null) return { number: "", unit: "" };
  const own: { number?: unknown; unit?: unknown } =
    "setting" in value ? Object(value.setting) : value;
  return { number: String(own.number ?? ""), unit: String(own.unit ?? "") };
}

const NUMBER = /^[-+]?\d+(?:[.,]\d+)?$/;

/** One cell: quoted where it has to be, its text kept from being taken for a formula. */
export function csvCell(text: string): string {
  const tame = /^[=+\-@\t\r]/.test(text) && !NUMBER.test(text) ? `'${text}` : text;
  return /[",\r\n]/.test(tame) ? `"${tame.replaceAll('"', '""')}"` : tame;
}
