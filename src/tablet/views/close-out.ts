// What the server will say to closing the job, worked out by the same rules; the server decides.
import { html, nothing, type TemplateResult } from "lit-html";
import type { Blocker } from "../../domain/closeout/gate.ts";
import type { KeptOp } from "../contract.ts";
import type { JobState } from "../job/job-state.ts";
import { phrase, retold } from "../language/spoken.ts";
import type { View } from "./frame.ts";
import { shapeOf } from "./outcome.ts";
import type { TabletPage } from "./page.ts";
import { addressOf } from "./route.ts";

/** The gate as it is seen from here, and the way to ask for the close-out. */
export function closeOutView(page: TabletPage, job: JobState): View {
  const gate = job.gate();
  const asked = job.ops.findLast(({ op }) => op.payload.kind === "close-out");
  const { holdPoints, holdPointsMet } = gate.stats;
  const isWaiting = asked?.state === "waiting";
  const isClosed = job.packet.job.state !== "open" || asked?.result?.closed === true;
  const ask = (): void => void page.asking.ask(job);
  const isWished = page.asking.isWished(job.packet.job.id);
  return {
    body: html`<h1 tabindex="-1">${phrase("tabletVisit.closeOut")}</h1>
      <p>${phrase("tabletVisit.holdPointsMet", { met: holdPointsMet, total: holdPoints })}</p>
      ${asked && !isWished ? askedPart(asked) : nothing}
      ${isWished ? wishedPart(page, job) : nothing}
      ${
        gate.open
          ? html`<p class="note good">${shapeOf("good")}
              ${phrase("tabletVisit.nothingInTheWay")}</p>`
          : html`<h2>${phrase("tabletVisit.inTheWay")}</h2>
              <ul class="rows">${gate.blockers.map((blocker) => blockerPart(job, blocker))}</ul>`
      }
      <p class="soft">${phrase("tabletVisit.prevail")}</p>`,
    actions: isClosed
      ? undefined
      : html`<button class="main" @click=${ask} ?disabled=${isWaiting || isWished}>
          ${phrase(gate.open ? "tabletVisit.askToClose" : "tabletVisit.askAllTheSame")}
        </button>`,
  };
}

function wishedPart(page: TabletPage, { packet }: JobState): TemplateResult {
  const count = page.asking.photosWaiting(packet.job.id);
  return html`<p class="note warn">${phrase("tabletVisit.photosStillHere", { count })}</p>`;
}

function askedPart({ state, result }: KeptOp): TemplateResult {
  if (state === "waiting") {
    return html`<p class="note warn">${phrase("tabletVisit.askedWaiting")}</p>`;
  }
  if (state === "held" || state === "refused") {
    const told = result?.sentence;
    const words = told ? retold(told) : phrase("tabletVisit.officeLooks");
    return html`<p class="note bad">${words}</p>`;
  }
  if (result?.closed) return html`<p class="note good">${phrase("tabletVisit.closed")}</p>`;
  const count = result?.blockers;
  const words =
    count === undefined
      ? phrase("tabletVisit.notClosedSome")
      : phrase("tabletVisit.notClosed", { count });
  return html`<p class="note bad">${words}</p>`;
}

function blockerPart({ packet }: JobState, blocker: Blocker): TemplateResult {
  const { itemId, subject, title, subjectLabel, sentence, toClear, code } = blocker;
  const route = { name: "item", jobId: packet.job.id, itemId, subject } as const;
  const name =
    code === "no-subjects"
      ? html`<strong>${title}</strong>`
      : html`<a class="cover" href=${addressOf(route)}>${title}</a>`;
  return html`<li class="row">${shapeOf(code === "missing" ? "open" : "bad")}<span>${name}
    ${subjectLabel ? html`<span class="subject">${subjectLabel}</span>` : nothing}
    <span>${retold(sentence)}</span><span class="soft">${retold(toClear)}</span></span></li>`;
}
