// Everything the plan asks, stage by stage: what is left, what stands in the way, jump anywhere.
import { html, nothing, type TemplateResult } from "lit-html";
import type { ItemState, JobState, StageState } from "../job/job-state.ts";
import { phrase, retold } from "../language/spoken.ts";
import type { View } from "./frame.ts";
import { messagesWords } from "./messages.ts";
import { outcomeWords, shapeOf, toneOf } from "./outcome.ts";
import type { TabletPage } from "./page.ts";
import { railPart } from "./rail.ts";
import { addressOf } from "./route.ts";

/** The list of one job. */
export function listView(_page: TabletPage, job: JobState): View {
  const { packet, stages } = job;
  const { site } = packet;
  const jobId = packet.job.id;
  return {
    body: html`<h1 tabindex="-1">${packet.job.title}</h1>
      <p>${site.customerName}, ${site.addressLine}, ${site.locality}
        ${
          site.customerPhone
            ? html`<a class="button" href="tel:${site.customerPhone}"
                >${phrase("tabletVisit.ring", { phone: site.customerPhone })}</a>`
            : nothing
        }</p>
      ${railPart(stages)} ${stages.map((stage) => stagePart(job, stage))}
      <p class="row-of-buttons">
        <a class="button" href=${addressOf({ name: "snag", jobId })}
          >${phrase("tabletVisit.noteSnag")}</a>
        <a class="button" href=${addressOf({ name: "messages", jobId })}
          >${messagesWords(packet)}</a>
      </p>`,
  };
}

function stagePart(job: JobState, stage: StageState): TemplateResult {
  const { items, left, holdPointsLeft, unitMissing } = stage;
  const summary =
    left === 0
      ? phrase("tabletVisit.allMet")
      : phrase("tabletVisit.stageLeft", { left, holdPoints: holdPointsLeft });
  return html`<details class="stage" ?open=${left > 0}>
    <summary><h2>${stage.title}</h2><span class="soft">${summary}</span></summary>
    <ul class="rows">
      ${items.map((state) => row(job, state))}
      ${unitMissing.map(({ itemId, sentence }) => {
        const title = job.facts.plan.byId.get(itemId)?.item.title ?? itemId;
        return html`<li class="row">${shapeOf("open")}<span><strong>${title}</strong>
          <span class="soft">${retold(sentence)}</span></span></li>`;
      })}
    </ul>
  </details>`;
}

function row({ packet }: JobState, state: ItemState): TemplateResult {
  const { compiled, subject, verdict, attempts, step } = state;
  const { item, holdPoint } = compiled;
  const route = {
    name: "item",
    jobId: packet.job.id,
    itemId: item.id,
    subject: subject.key,
  } as const;
  const waits = attempts.length === 0 && step.blockedBy.length > 0;
  const standing = [
    outcomeWords(verdict),
    ...(holdPoint ? [phrase("tabletVisit.holdPoint")] : []),
    ...(waits ? [phrase("tabletVisit.comesFirst")] : []),
    ...(attempts.length > 1 ? [phrase("tabletItem.attempts", { count: attempts.length })] : []),
  ];
  return html`<li class="row">
    ${shapeOf(toneOf(verdict))}
    <span>
      <a class="cover" href=${addressOf(route)}>${item.title}</a>
      ${subject.label ? html`<span class="subject">${subject.label}</span>` : nothing}
      <span class="soft">${standing.join("; ")}</span>
    </span>
  </li>`;
}
