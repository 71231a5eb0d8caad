// The actions at the lower edge: one main one, where the thumb is.
import { html, type TemplateResult } from "lit-html";
import type { Verdict } from "../../domain/acceptance/verdict.ts";
import type { ItemState, JobState } from "../job/job-state.ts";
import { phrase, retold } from "../language/spoken.ts";
import { outcomeWords, shapeOf, type Tone, toneOf } from "./outcome.ts";
import type { TabletPage } from "./page.ts";

/** Keeping the answer, or leaving the item for later. */
export function keepActions(page: TabletPage, job: JobState, state: ItemState): TemplateResult {
  const { desk } = page;
  const isConfirm = state.compiled.item.kind === "confirm";
  const isNotDone = desk.work?.draft.done === false;
  const keep = (): void =>
    void desk.keep(job, state, isConfirm && !isNotDone ? { done: true } : {});
  const later = (): void => desk.setAside(state);
  return html`${foretoldPart(page, job, state)}
    <button @click=${later}>${phrase("tabletItem.later")}</button>
    <button class="main" @click=${keep} ?disabled=${desk.work?.isKeeping ?? true}>
      ${phrase(isConfirm && !isNotDone ? "tabletItem.done" : "tabletItem.keep")}
    </button>`;
}

/** The verdict on what is typed, beside the button that keeps it. */
function foretoldPart(page: TabletPage, job: JobState, state: ItemState): TemplateResult {
  const found = page.desk.preview(job, state);
  const problem = page.desk.work?.problem;
  if (problem) return toldPart("bad", problem);
  if (found.state === "incomplete") return html``;
  if (found.state === "unreadable") return toldPart("warn", found.problem);
  const { verdict } = found;
  const words = { outcome: outcomeWords(verdict), sentence: retold(verdict.sentence) };
  return toldPart(toneOf(verdict), phrase("tabletItem.foretold", words));
}

const toldPart = (tone: Tone, words: string): TemplateResult =>
  html`<p class="foretold ${tone}">${shapeOf(tone)} <span>${words}</span></p>`;

/** After keeping: on to the next where it is met; where not, once more. */
export function keptActions(page: TabletPage, verdict: Verdict): TemplateResult {
  const { desk } = page;
  const on = (): void => void desk.goOn();
  const again = (): void => desk.again();
  return verdict.clears
    ? html`<button @click=${again}>${phrase("tabletItem.again")}</button>
        <button class="main" @click=${on}>${phrase("tabletItem.next")}</button>`
    : html`<button @click=${() => leaveUnmet(page)}>${phrase("tabletItem.leave")}</button>
        <button class="main" @click=${again}>${phrase("tabletItem.answerAgain")}</button>`;
}

function leaveUnmet(page: TabletPage): void {
  const job = page.currentJob();
  const state = job && page.desk.current(job);
  if (state) page.desk.setAside(state);
}
