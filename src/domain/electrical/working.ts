// The working must be checkable by hand: what is printed under "substituted" is the
// arithmetic that was done, in numbers a calculator accepts.
import type { Answer, Step } from "./calculation.ts";
import type { Judgement } from "./judgement.ts";
import { settled } from "./number-text.ts";
import type { Citation } from "./tables/reference-table.ts";

/** A step that works a number out. */
export function worked(
  label: string,
  formula: string,
  substituted: string,
  result: number,
  unit: string,
  from?: Citation,
): Step {
  const step = { label, formula, substituted, result: settled(result), unit };
  return from ? { ...step, source: from.clause } : step;
}

/** A step that reads a table. */
export function lookedUp(
  label: string,
  from: Citation,
  tableRow: string,
  result: number,
  unit: string,
): Step {
  const formula = `read from ${from.clause}`;
  return { label, formula, substituted: tableRow, result, unit, source: from.clause, tableRow };
}

function provenance(citation: Citation): string[] {
  const notes = citation.caveat ? [`${citation.clause}: ${citation.caveat}`] : [];
  if (citation.found === "memory") {
    notes.push(
      `${citation.clause}: recalled, not checked against the printed text; check your own copy.`,
    );
  } else if (citation.found === "seen in a secondary page") {
    notes.push(`${citation.clause}: seen quoted elsewhere, not in the printed text itself.`);
  }
  return notes;
}

const unique = (words: readonly string[]): string[] => [...new Set(words)];

/**
 * Puts an answer together; the result is the last step's unless another step is named.
 *
 * @param parts.from everything the answer leans on; its caveats become notes
 */
export function answer(parts: {
  steps: readonly [Step, ...Step[]];
  from: readonly [Citation, ...Citation[]];
  caution: string;
  notes?: readonly string[];
  judged?: Judgement | undefined;
  result?: Step;
}): Answer {
  const { steps, from, judged } = parts;
  const result = parts.result ?? (steps.at(-1) as Step);
  const notes = [...(parts.notes ?? []), ...from.flatMap(provenance)];
  if (judged) notes.unshift(judged.sentence);
  return {
    ok: true,
    result: result.result,
    unit: result.unit,
    steps: [...steps],
    source: unique(from.map((citation) => citation.clause)).join("; "),
    edition: unique(from.map((citation) => citation.edition)).join("; "),
    notes: unique(notes),
    caution: parts.caution,
    ...(judged ? { passes: judged.passes, margin: judged.margin, marginUnit: judged.unit } : {}),
  };
}
