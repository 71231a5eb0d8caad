// The parts of an item that tell: where it stands, what it is, what to take care of, what comes
// first.
import { html, nothing, type TemplateResult } from "lit-html";
import type { Item } from "../../domain/plan/item.ts";
import type { ItemState, JobState } from "../job/job-state.ts";
import { phrase, retold } from "../language/spoken.ts";
import { clockOf } from "../language/written.ts";
import { countdown, tickWhileShown } from "./nothing-to-do.ts";
import type { TabletPage } from "./page.ts";
import { addressOf } from "./route.ts";

/** "Stage 2 of 5, Wall and brackets, 3 left". */
export function stageLine({ stages, packet }: JobState, { compiled }: ItemState): TemplateResult {
  const at = stages.findIndex(({ id }) => id === compiled.stageId);
  const stage = stages[at];
  const left = stage?.left ?? 0;
  const words = {
    ...{ reference: packet.job.reference, at: at + 1, of: stages.length, left },
    title: stage?.title ?? "",
  };
  return html`<p class="stage-line">${phrase("tabletItem.stage", words)}</p>`;
}

/** Hold point, safety-critical, supply on or off, breakers as they must stand. */
export function tagsPart({ compiled }: ItemState): TemplateResult {
  const { item, holdPoint } = compiled;
  const breakers = Object.entries(item.breakers?.with ?? {});
  const tags = [
    ...(item.safetyCritical
      ? [phrase("tabletItem.safetyCritical")]
      : holdPoint
        ? [phrase("tabletItem.holdPoint")]
        : []),
    ...(item.supply === "dead" ? [phrase("tabletItem.supplyDead")] : []),
    ...(item.supply === "live" ? [phrase("tabletItem.supplyLive")] : []),
    ...breakers.map(([name, state]) =>
      phrase("tabletItem.breaker", { name: name.replaceAll("_", " "), state }),
    ),
  ];
  return tags.length === 0
    ? html``
    : html`<ul class="tags">${tags.map((tag) => html`<li class="tag">${tag}</li>`)}</ul>`;
}

/** Cautions of the item, and those that its supply calls for. */
export function cautionsPart(item: Item): TemplateResult | typeof nothing {
  const usual = [
    ...(item.supply === "live" ? [phrase("tabletItem.live")] : []),
    ...(item.supply === "dead" ? [phrase("tabletItem.dead")] : []),
  ];
  const cautions = [...(item.cautions ?? []), ...usual];
  if (cautions.length === 0) return nothing;
  return html`<section class="cautions" aria-label=${phrase("tabletItem.cautions")}>
    <p class="cautions-head"><span aria-hidden="true">⚠</span> ${phrase("tabletItem.caution")}</p>
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
  const means = phrase(
    compiled.item.sequence === "mark" ? "tabletItem.marked" : "tabletItem.blocked",
  );
  const jobId = packet.job.id;
  return html`<section class="note warn" aria-label=${phrase("tabletItem.notYet")}>
    <p><strong>${phrase("tabletItem.comesFirst")}</strong></p>
    ${waitsUntil ? waitPart(page, job, Date.parse(waitsUntil)) : nothing}
    ${step.blockedBy.map(({ itemId, subject = "", toClear }) => {
      const title = itemId && facts.plan.byId.get(itemId)?.item.title;
      if (!itemId || !title) return waitsUntil ? nothing : html`<p>${retold(toClear)}</p>`;
      const route = { name: "item", jobId, itemId, subject } as const;
      return html`<p><a class="button" href=${addressOf(route)}
        >${phrase("tabletItem.goTo", { title })}</a></p>`;
    })}
    <p>${means}</p>
  </section>`;
}

function waitPart(page: TabletPage, job: JobState, untilMs: number): TemplateResult {
  const at = clockOf(untilMs, job.packet.site.timeZone);
  return html`<p class="countdown" role="timer">${countdown(untilMs - Date.now())}</p>
    <p>${phrase("tabletItem.from", { time: at })}</p>${tickWhileShown(page)}`;
}
