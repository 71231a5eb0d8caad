// The parts of an item that tell: where it stands, what it is, what to take care of, what comes
// first.
import { html, nothing, type TemplateResult } from "lit-html";
import type { Item } from "../../domain/plan/item.ts";
import { clockOf } from "../device/local-time.ts";
import type { ItemState, JobState } from "../job/job-state.ts";
import { countdown, tickWhileShown } from "./nothing-to-do.ts";
import type { TabletPage } from "./page.ts";
import { addressOf } from "./route.ts";

/** "Stage 2 of 5, Wall and brackets, 3 left". */
export function stageLine({ stages, packet }: JobState, { compiled }: ItemState): TemplateResult {
  const at = stages.findIndex(({ id }) => id === compiled.stageId);
  const stage = stages[at];
  const left = stage?.left ?? 0;
  return html`<p class="stage-line">
    ${packet.job.reference}. Stage ${at + 1} of ${stages.length}: ${stage?.title},
    ${left === 0 ? "all met" : `${left} left`}
  </p>`;
}

/** Hold point, safety-critical, supply on or off, breakers as they must stand. */
export function tagsPart({ compiled }: ItemState): TemplateResult {
  const { item, holdPoint } = compiled;
  const breakers = Object.entries(item.breakers?.with ?? {});
  const tags = [
    ...(item.safetyCritical ? ["Safety-critical hold point"] : holdPoint ? ["Hold point"] : []),
    ...(item.supply === "dead" ? ["Supply off, proven dead"] : []),
    ...(item.supply === "live" ? ["Supply on"] : []),
    ...breakers.map(([name, state]) => `Breaker ${name.replaceAll("_", " ")} ${state}`),
  ];
  return tags.length === 0
    ? html``
    : html`<ul class="tags">${tags.map((tag) => html`<li class="tag">${tag}</li>`)}</ul>`;
}

const LIVE =
  "The supply is on. Wear the stated protective equipment, use proved test leads, and let only " +
  "who is licensed for it work here. The maker's instructions and local codes prevail.";
const DEAD =
  "Isolate, lock off and prove dead before touching anything. The maker's instructions and local " +
  "codes prevail.";

/** Cautions of the item, and those that its supply calls for. */
export function cautionsPart(item: Item): TemplateResult | typeof nothing {
  const usual = item.supply === "live" ? [LIVE] : item.supply === "dead" ? [DEAD] : [];
  const cautions = [...(item.cautions ?? []), ...usual];
  if (cautions.length === 0) return nothing;
  return html`<section class="cautions" aria-label="Cautions">
    <p class="cautions-head"><span aria-hidden="true">⚠</span> Caution</p>
    ${cautions.map((caution) => html`<p>${caution}</p>`)}
  </section>`;
}

/** What comes first, and what an answer now would mean. */
export function obstaclesPart(
  page: TabletPage,
  job: JobState,
  { compiled, step }: ItemState,
): TemplateResult | typeof nothing {
  if (step.blockedBy.length === 0 || step.state === "not-applicable") return nothing;
  const { waitsUntil } = step;
  const { packet, facts } = job;
  const means =
    compiled.item.sequence === "mark"
      ? "An answer now is kept, counts, and is marked as out of sequence."
      : "An answer now is kept, but does not count: it has to be done again in its place.";
  const jobId = packet.job.id;
  return html`<section class="note warn" aria-label="Not yet">
    <p><strong>Something comes first</strong></p>
    ${waitsUntil ? waitPart(page, job, Date.parse(waitsUntil)) : nothing}
    ${step.blockedBy.map(({ itemId, subject = "", toClear }) => {
      const title = itemId && facts.plan.byId.get(itemId)?.item.title;
      if (!itemId || !title) return waitsUntil ? nothing : html`<p>${toClear}</p>`;
      const route = { name: "item", jobId, itemId, subject } as const;
      return html`<p><a class="button" href=${addressOf(route)}>Go to "${title}"</a></p>`;
    })}
    <p>${means}</p>
  </section>`;
}

function waitPart(page: TabletPage, job: JobState, untilMs: number): TemplateResult {
  const at = clockOf(untilMs, job.packet.site.timeZone);
  return html`<p class="countdown" role="timer">${countdown(untilMs - Date.now())}</p>
    <p>It can be done from ${at} on.</p>${tickWhileShown(page)}`;
}
