// Every attempt at an item: a later one never hides an earlier one.
import { html, nothing, type TemplateResult } from "lit-html";
import { verdictOnAttempt } from "../job/attempt-verdict.ts";
import type { ItemState, JobState } from "../job/job-state.ts";
import type { KnownAnswer } from "../job/kept-answers.ts";
import { phrase, retold } from "../language/spoken.ts";
import { clockOf, dayOf } from "../language/written.ts";
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
    <summary>${phrase("tabletItem.attempts", { count: attempts.length })}</summary>
    <ol class="rows" reversed>
      ${attempts.toReversed().map((answer) => attemptPart(page, job, answer))}
    </ol>
  </details>`;
}

function attemptPart(page: TabletPage, job: JobState, answer: KnownAnswer): TemplateResult {
  const { takenAt, kept, note, personId } = answer;
  const { timeZone } = job.packet.site;
  const verdict = verdictOnAttempt(job, answer);
  const whose = personId === page.profile.personId ? "own" : "other";
  const at = { day: dayOf(takenAt, timeZone), time: clockOf(takenAt, timeZone), whose };
  const where =
    kept?.state === "waiting"
      ? phrase("tabletItem.attemptHere", at)
      : phrase("tabletItem.attemptThere", at);
  return html`<li class="row">
    ${verdict ? shapeOf(toneOf(verdict)) : nothing}
    <span>
      <strong>${verdict ? outcomeWords(verdict) : phrase("tabletItem.notJudged")}</strong>
      <span>${verdict ? retold(verdict.sentence) : nothing}</span>
      ${note ? html`<span>${phrase("tabletItem.note", { text: note })}</span>` : nothing}
      <span class="soft">${where}</span>
    </span>
  </li>`;
}
