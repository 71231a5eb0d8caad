// Outcomes in words and by shape; colour only repeats them.
import { html, nothing, type TemplateResult } from "lit-html";
import type { Verdict } from "../../domain/acceptance/verdict.ts";
import { phrase, retold } from "../language/spoken.ts";

export type Tone = "good" | "bad" | "warn" | "open";

type Shown = Pick<Verdict, "outcome" | "clears">;

/** "Met", "Not met", … */
export function outcomeWords({ outcome, clears }: Shown): string {
  if (outcome === "marginal") {
    return phrase(clears ? "tabletItem.metNearLimit" : "tabletItem.notMetNearLimit");
  }
  if (outcome === "out-of-sequence" && clears) {
    return phrase("tabletItem.metOutOfSequence");
  }
  return phrase(`tabletItem.outcome.${outcome}`);
}

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
export function verdictPart(
  verdict: Verdict,
  heading: "tabletItem.kept" | "tabletItem.asItStands",
): TemplateResult {
  const tone = toneOf(verdict);
  return html`<section class="verdict ${tone}" aria-label=${phrase("tabletItem.verdict")}>
    <p class="verdict-head">${shapeOf(tone)}<strong
      >${phrase(heading, { words: outcomeWords(verdict) })}</strong></p>
    <p>${retold(verdict.sentence)}</p>
    ${verdict.toClear && !verdict.clears ? html`<p>${retold(verdict.toClear)}</p>` : nothing}
  </section>`;
}
