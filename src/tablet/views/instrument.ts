// Which instrument a reading is taken with: chosen once for its class and remembered, with how it
// stands today told before the reading and not after.
import { html, nothing, type TemplateResult } from "lit-html";
import { type InstrumentChoice, instrumentChoices, instrumentClass } from "../job/instruments.ts";
import type { ItemState, JobState } from "../job/job-state.ts";
import { isTabletKey, phrase, retold } from "../language/spoken.ts";
import { plainDay } from "../language/written.ts";
import { shapeOf } from "./outcome.ts";
import type { TabletPage } from "./page.ts";

/** The chosen instrument, or the ones to choose from; nothing where none is asked for. */
export function instrumentPart(
  page: TabletPage,
  job: JobState,
  { compiled }: ItemState,
): TemplateResult | typeof nothing {
  const wanted = instrumentClass(compiled.item);
  const { work } = page.desk;
  if (wanted === undefined || !work) return nothing;
  const choices = instrumentChoices(job, wanted, job.context.now);
  const chosen = choices.find(({ instrument }) => instrument.id === work.instrumentId);
  const what = nameOf(wanted);
  if (choices.length === 0) {
    return html`<p class="note warn">${phrase("tabletInstrument.none", { what })}</p>`;
  }
  if (!chosen || work.isChoosing) return choosePart(page, wanted, what, choices);
  const change = (): void => {
    work.isChoosing = true;
    page.redraw();
  };
  return html`<div class="instrument ${chosen.fault ? "bad" : "good"}">
    ${stateLine(chosen)}
    <button @click=${change} aria-label=${phrase("tabletInstrument.changeWhat", { what })}>
      ${phrase("tabletInstrument.change")}</button>
  </div>`;
}

function choosePart(
  page: TabletPage,
  wanted: string,
  what: string,
  choices: readonly InstrumentChoice[],
): TemplateResult {
  return html`<fieldset class="options">
    <legend>${phrase("tabletInstrument.which", { what })}</legend>
    ${choices.map(
      (choice) =>
        html`<button
          class="option" @click=${() => page.desk.chooseInstrument(wanted, choice.instrument.id)}>
          ${stateLine(choice)}
        </button>`,
    )}
  </fieldset>`;
}

/** A class of the firm's own is called what the firm calls it. */
function nameOf(wanted: string): string {
  const key = `tabletInstrument.class.${wanted}`;
  return isTabletKey(key) ? phrase(key) : wanted.replaceAll("-", " ");
}

const calibrated = (dueOn: string | undefined): string =>
  dueOn === undefined
    ? phrase("tabletInstrument.inCalibration")
    : phrase("tabletInstrument.until", { day: plainDay(dueOn) });

function stateLine({ instrument, fault, dueOn }: InstrumentChoice): TemplateResult {
  const { reference, name } = instrument;
  const state = fault === undefined ? calibrated(dueOn) : retold(fault);
  return html`${shapeOf(fault ? "bad" : "good")}
    <span><strong>${reference}</strong> ${name ?? nothing}
      <span class="soft">${state}</span></span>`;
}
