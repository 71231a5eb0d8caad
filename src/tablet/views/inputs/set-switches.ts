// Where each switch stands, as found: said for every one of them, because a glance at the whole is
// how a wrong address is missed.
import { html, type TemplateResult } from "lit-html";
import { live } from "lit-html/directives/live.js";
import type { Switch } from "../../../domain/bank/switch-map.ts";
import type { ItemState, JobState } from "../../job/job-state.ts";
import { wantedPositions } from "../../job/wanted.ts";
import { phrase } from "../../language/spoken.ts";
import { switchNamed } from "../drawings.ts";
import type { TabletPage } from "../page.ts";

/** One row a switch: how it must stand, and how it does. */
export function setPart(page: TabletPage, job: JobState, state: ItemState): TemplateResult {
  const { unit } = state.subject;
  const map = unit && job.facts.switchMaps[unit.modelCode];
  return html`${wantedPositions(job, state).map(({ switch: name, position }) => {
    const known = map && switchNamed(map, name);
    return switchRow(page, { name, wanted: position, known });
  })}`;
}

interface Row {
  name: string;
  wanted: string | undefined;
  known: Switch | undefined;
}

function switchRow(page: TabletPage, { name, wanted, known }: Row): TemplateResult {
  const found = page.desk.work?.draft.positions?.[name] ?? "";
  const put = (position: string): void => {
    const positions = { ...page.desk.work?.draft.positions, [name]: position };
    page.desk.put({ positions });
  };
  const id = `switch-${name.replace(/\W+/g, "-")}`;
  const asNeeded =
    wanted === undefined
      ? html`<span class="soft">${phrase("tabletInput.positionUnknown")}</span>`
      : html`<button
          class="option" aria-pressed=${found === wanted} @click=${() => put(wanted)}>
          ${phrase("tabletInput.standsAsNeeded", { position: wanted })}
        </button>`;
  return html`<div class="switch" role="group" aria-label=${name}>
    <p><strong>${known?.label ?? name}</strong></p>
    ${asNeeded}
    <label for=${id}>${phrase("tabletInput.standsOtherwise")}</label>
    ${
      known?.kind === "rotary"
        ? rotaryField(id, known.positions, found, put)
        : textField(id, found, put)
    }
  </div>`;
}

const rotaryField = (
  id: string,
  positions: readonly string[],
  found: string,
  put: (position: string) => void,
): TemplateResult => html`<select
    id=${id} @change=${(event: Event) => put((event.target as HTMLSelectElement).value)}>
    <option value="" ?selected=${found === ""}>${phrase("tabletInput.choose")}</option>
    ${positions.map((one) => html`<option value=${one} ?selected=${one === found}>${one}</option>`)}
  </select>`;

const textField = (id: string, found: string, put: (position: string) => void): TemplateResult =>
  html`<input
    id=${id} autocomplete="off" maxlength="60" .value=${live(found)}
    @input=${(event: Event) => put((event.target as HTMLInputElement).value)} />`;
