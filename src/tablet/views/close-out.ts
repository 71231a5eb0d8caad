// What the server will say to closing the job, worked out by the same rules; the server decides.
import { html, nothing, type TemplateResult } from "lit-html";
import type { Blocker } from "../../domain/closeout/gate.ts";
import type { KeptOp } from "../contract.ts";
import type { JobState } from "../job/job-state.ts";
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
    body: html`<h1 tabindex="-1">Close-out</h1>
      <p>${holdPointsMet} of ${holdPoints} hold points are met.</p>
      ${asked && !isWished ? askedPart(asked) : nothing}
      ${isWished ? wishedPart(page, job) : nothing}
      ${
        gate.open
          ? html`<p class="note good">${shapeOf("good")} Nothing stands in the way, by what is on
              this tablet. The server looks again, and waits for the photos.</p>`
          : html`<h2>What stands in the way</h2>
              <ul class="rows">${gate.blockers.map((blocker) => blockerPart(job, blocker))}</ul>`
      }
      <p class="soft">Local codes and licensed practice prevail over this list.</p>`,
    actions: isClosed
      ? undefined
      : html`<button class="main" @click=${ask} ?disabled=${isWaiting || isWished}>
          ${gate.open ? "Ask to close the job" : "Ask all the same"}
        </button>`,
  };
}

function wishedPart(page: TabletPage, { packet }: JobState): TemplateResult {
  const count = page.asking.photosWaiting(packet.job.id);
  const photos = count === 1 ? "1 photo is" : `${count} photos are`;
  return html`<p class="note warn">${photos} still on this tablet. The close-out is asked for by
    itself once the server has them; keep the tablet on until then.</p>`;
}

function askedPart({ state, result }: KeptOp): TemplateResult {
  if (state === "waiting") {
    return html`<p class="note warn">Asked; waiting for the server. You can go on.</p>`;
  }
  if (state === "held" || state === "refused") {
    return html`<p class="note bad">${result?.sentence ?? "The office looks at it."}</p>`;
  }
  if (result?.closed) return html`<p class="note good">The server has closed the job.</p>`;
  const count = result?.blockers;
  const what = count === 1 ? "1 thing stands" : `${count ?? "Some"} things stand`;
  return html`<p class="note bad">The server did not close the job: ${what} in the way.</p>`;
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
    <span>${sentence}</span><span class="soft">${toClear}</span></span></li>`;
}
