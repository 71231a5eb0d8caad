// One item: cautions first, then what to do, then the input; the verdict at once, then the next.
import { html, nothing, type TemplateResult } from "lit-html";
import type { ItemState, JobState } from "../job/job-state.ts";
import { setBack } from "../job/kept-answers.ts";
import { neededWords } from "../job/wanted.ts";
import { phrase, retold } from "../language/spoken.ts";
import { attemptsPart } from "./attempts.ts";
import { drawingPart } from "./drawings.ts";
import type { View } from "./frame.ts";
import { evidencePart } from "./inputs/evidence.ts";
import { inputPart } from "./inputs/input.ts";
import { instrumentPart } from "./instrument.ts";
import { keepActions, keptActions } from "./item-actions.ts";
import { cautionsPart, obstaclesPart, stageLine, tagsPart } from "./item-parts.ts";
import { verdictPart } from "./outcome.ts";
import type { TabletPage } from "./page.ts";

/** The item being worked on, or the verdict on what was just kept. */
export function itemView(page: TabletPage, job: JobState, state: ItemState): View {
  const { work } = page.desk;
  const kept = work?.kept;
  const head = html`${stageLine(job, state)}
    <h1 tabindex="-1">${state.compiled.item.title}${labelPart(state)}</h1>
    ${tagsPart(state)}`;
  if (kept) {
    return {
      body: html`${head}${verdictPart(kept.verdict, "tabletItem.kept")}
        ${attemptsPart(page, job, state)}`,
      actions: keptActions(page, kept.verdict),
    };
  }
  return {
    body: html`${head}
      <div class="item">
        <div class="item-told">${toldPart(page, job, state)}</div>
        <div class="item-asked">${askedPart(page, job, state)}</div>
      </div>`,
    actions: keepActions(page, job, state),
  };
}

const labelPart = ({ subject, place, places }: ItemState): TemplateResult | typeof nothing =>
  subject.label
    ? html`<span class="subject"
        >${phrase("tabletItem.place", { label: subject.label, place, places })}</span>`
    : nothing;

const whyPart = (why: string): TemplateResult =>
  html`<details><summary>${phrase("tabletItem.why")}</summary><p>${why}</p></details>`;

const neededPart = (needed: string): TemplateResult =>
  html`<p class="needed"><span>${phrase("tabletItem.needed")}</span> ${needed}</p>`;

function toldPart(page: TabletPage, job: JobState, state: ItemState): TemplateResult {
  const { item } = state.compiled;
  return html`${cautionsPart(item)}
    <p class="do">${item.do}</p>
    ${item.why ? whyPart(item.why) : nothing}
    ${obstaclesPart(page, job, state)} ${drawingPart(job, state)}`;
}

function askedPart(page: TabletPage, job: JobState, state: ItemState): TemplateResult {
  const { item } = state.compiled;
  const needed = neededWords(job, state);
  return html`${earlierPart(job, state)}
    ${needed ? neededPart(needed) : nothing}
    ${instrumentPart(page, job, state)} ${inputPart(page, job, state)}
    ${evidencePart(page, item)}
    ${attemptsPart(page, job, state)}`;
}

/** What stands already, and what the server did not take, before another attempt. */
function earlierPart({ ops }: JobState, state: ItemState): TemplateResult {
  const back = setBack(ops, state.compiled.item.id, state.subject.key);
  const { attempts, verdict } = state;
  return html`${attempts.length > 0 ? verdictPart(verdict, "tabletItem.asItStands") : nothing}
    ${back.map(
      ({ result }) =>
        html`<p class="note warn">${phrase("tabletItem.answerWaits", {
          sentence: retold(result?.sentence ?? ""),
        })}</p>`,
    )}
    ${
      attempts.some(({ kept }) => kept?.result?.differs)
        ? html`<p class="note warn">${phrase("tabletItem.twice")}</p>`
        : nothing
    }`;
}
