// Numbers by a thumb in a glove: a pad of our own, because the tablet's keyboard hides what to do
// and its keys are small. A keyboard types into the field as into any other.
import { html, type nothing, type TemplateResult } from "lit-html";
import { live } from "lit-html/directives/live.js";
import { isUnit, quantityOf, UNIT_SYMBOLS } from "../../../domain/quantities/units.ts";
import type { ItemState, JobState } from "../../job/job-state.ts";
import { typedUnit } from "../../job/typed-unit.ts";
import { phrase } from "../../language/spoken.ts";
import type { TabletPage } from "../page.ts";
import { padPart } from "./pad.ts";

const DIGITS_MOST = 18;

/** A reading with its unit, one of those of its quantity. */
export function measurePart(
  page: TabletPage,
  job: JobState,
  state: ItemState,
  label: string,
  unit: string,
): TemplateResult {
  const { draft = {} } = page.desk.work ?? {};
  const { number = "" } = draft;
  const chosen = typedUnit(unit, draft, job.packet);
  // The number is kept with the unit that stood beside it when it was typed.
  const put = (text: string): void =>
    page.desk.put({ number: text.slice(0, DIGITS_MOST), unit: chosen });
  return html`${fieldPart({ page, job, state, label, value: number, put })}
    ${unitsPart(page, unit, chosen)} ${padPart({ value: number, put, signs: true })}`;
}

/** A whole number. */
export function countPart(page: TabletPage, job: JobState, state: ItemState): TemplateResult {
  const value = page.desk.work?.draft.count ?? "";
  const put = (text: string): void => page.desk.put({ count: text.replace(/\D/g, "").slice(0, 6) });
  return html`${fieldPart({ page, job, state, label: phrase("tabletInput.count"), value, put })}
    ${padPart({ value, put, signs: false })}`;
}

interface Field {
  page: TabletPage;
  job: JobState;
  state: ItemState;
  label: string;
  value: string;
  put(text: string): void;
}

function fieldPart({ page, job, state, label, value, put }: Field): TemplateResult {
  const onKey = (event: KeyboardEvent): void => {
    if (event.key !== "Enter") return;
    event.preventDefault();
    void page.desk.keep(job, state);
  };
  return html`<label for="number">${label}</label>
    <input
      id="number" class="number" inputmode="none" autocomplete="off" .value=${live(value)}
      @input=${(event: Event) => put((event.target as HTMLInputElement).value)}
      @keydown=${onKey} />`;
}

function unitsPart(
  page: TabletPage,
  unit: string,
  chosen: string,
): TemplateResult | typeof nothing {
  const units = isUnit(unit)
    ? UNIT_SYMBOLS.filter((symbol) => quantityOf(symbol) === quantityOf(unit))
    : [unit];
  if (units.length < 2) return html`<p class="unit">${unit}</p>`;
  return html`<fieldset class="units">
    <legend>${phrase("tabletInput.unit")}</legend>
    ${units.map(
      (symbol) => html`<label class="choice">
        <input
          type="radio" name="unit" .checked=${live(symbol === chosen)}
          @change=${() => page.desk.put({ unit: symbol })} /><span>${symbol}</span>
      </label>`,
    )}
  </fieldset>`;
}
