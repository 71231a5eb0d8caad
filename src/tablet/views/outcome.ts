// Outcomes in words and by shape; colour only repeats them.
import { html, nothing, type TemplateResult } from "lit-html";
import type { Outcome, Verdict } from "../../domain/acceptance/verdict.ts";

export type Tone = "good" | "bad" | "warn" | "open";

type Shown = Pick<Verdict, "outcome" | "clears">;

/** "Met", "Not met", … */
export function outcomeWords({ outcome, clears }: Shown): string {
  if (outcome === "marginal") return clears ? "Met, near the limit" : "Not met, near the limit";
  if (outcome === "out-of-sequence" && clears) return "Met, out of sequence";
  return WORDS[outcome];
}

const WORDS: Readonly<Record<Outcome, string>> = {
  pass: "Met",
  fail: "Not met",
  marginal: "Near the limit",
  missing: "Open",
  "stale-instrument": "Instrument not accepted",
  "out-of-sequence": "Out of sequence",
  conceded: "Released by concession",
  "not-applicable": "Does not apply",
};

export function toneOf({ outcome, clears }: Shown): Tone {
  if (outcome === "missing") return "open";
  if (clears) return outcome === "marginal" ? "warn" : "good";
  return outcome === "marginal" ? "warn" : "bad";
}

const SHAPES: Readonly<Record<Tone, string>> = { good: "✓", bad: "✕", warn: "△", open: "○" };

/** The shape of a tone; a screen reader has the words beside it. */
export const shapeOf = (tone: Tone): TemplateResult =>
  html`<span class="shape ${tone}" aria-hidden="true">${SHAPES[tone]}</span>`;

/** A verdict in full: what was read, what was needed, and what clears it. */
export function verdictPart(verdict: Verdict, heading: string): TemplateResult {
  const tone = toneOf(verdict);
  return html`<section class="verdict ${tone}" aria-label="Verdict">
    <p class="verdict-head">${shapeOf(tone)}<strong>${heading}${outcomeWords(verdict)}</strong></p>
    <p>${verdict.sentence}</p>
    ${verdict.toClear && !verdict.clears ? html`<p>${verdict.toClear}</p>` : nothing}
  </section>`;
}
