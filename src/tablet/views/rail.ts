// The stages of a job as one bar: how long each is, how much of it is met.
import { html, svg, type TemplateResult } from "lit-html";
import type { StageState } from "../job/job-state.ts";
import { phrase } from "../language/spoken.ts";

const LENGTH = 1000;
const GAP = 8;

/** A bar of stages with the same in words for those who do not see it. */
export function railPart(stages: readonly StageState[]): TemplateResult {
  const shown = stages.filter(({ items }) => items.length > 0);
  const total = shown.reduce((sum, { items }) => sum + items.length, 0);
  const met = shown.reduce((sum, { items, left }) => sum + items.length - left, 0);
  const free = LENGTH - GAP * Math.max(0, shown.length - 1);
  let x = 0;
  const parts = shown.map(({ items, left }) => {
    const width = (free * items.length) / total;
    const done = (width * (items.length - left)) / items.length;
    const at = x;
    x += width + GAP;
    return svg`<rect class="rail-open" x=${at} y="0" width=${width} height="14" rx="5"></rect>
      <rect class="rail-met" x=${at} y="0" width=${done} height="14" rx="5"></rect>`;
  });
  return html`<svg class="rail" viewBox="0 0 ${LENGTH} 14" preserveAspectRatio="none" role="img"
    aria-label=${phrase("tabletVisit.railMet", { met, total })}>${parts}</svg>`;
}
