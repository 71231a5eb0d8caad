// Every attempt at an item: a later one never hides an earlier one.
import { html, nothing, type TemplateResult } from "lit-html";
import { clockOf, dayOf } from "../device/local-time.ts";
import { verdictOnAttempt } from "../job/attempt-verdict.ts";
import type { ItemState, JobState } from "../job/job-state.ts";
import type { KnownAnswer } from "../job/kept-answers.ts";
import { outcomeWords, shapeOf, toneOf } from "./outcome.ts";
import type { TabletPage } from "./page.ts";

/** The attempts, latest first. */
export function attemptsPart(
  page: TabletPage,
  job: JobState,
  { attempts }: ItemState,
): TemplateResult | typeof nothing {
  if (attempts.length === 0) return nothing;
  return html`<details class="attempts">
    <summary>${attempts.length} ${attempts.length === 1 ? "attempt" : "attempts"}</summary>
    <ol class="rows" reversed>
      ${attempts.toReversed().map((answer) => attemptPart(page, job, answer))}
    </ol>
  </details>`;
}

function attemptPart(page: TabletPage, job: JobState, answer: KnownAnswer): TemplateResult {
  const { takenAt, kept, note, personId } = answer;
  const { timeZone } = job.packet.site;
  const verdict = verdictOnAttempt(job, answer);
  const whose = personId === page.profile.personId ? "by you" : "by somebody else";
  const where = kept?.state === "waiting" ? "on this tablet, not sent yet" : "on the server";
  return html`<li class="row">
    ${verdict ? shapeOf(toneOf(verdict)) : nothing}
    <span>
      <strong>${verdict ? outcomeWords(verdict) : "Not judged"}</strong>
      <span>${verdict?.sentence}</span>
      ${note ? html`<span>Note: ${note}</span>` : nothing}
      <span class="soft">${dayOf(takenAt, timeZone)}, ${clockOf(takenAt, timeZone)}, ${whose},
        ${where}</span>
    </span>
  </li>`;
}
