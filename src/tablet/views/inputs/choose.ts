import { html, type TemplateResult } from "lit-html";
import { live } from "lit-html/directives/live.js";
import type { ItemOf } from "../../../domain/plan/item.ts";
import { phrase } from "../../language/spoken.ts";
import type { TabletPage } from "../page.ts";

/** One of the plan's options. */
export function choosePart(page: TabletPage, item: ItemOf<"choose">): TemplateResult {
  const chosen = page.desk.work?.draft.choice;
  return html`<fieldset class="options">
    <legend>${phrase("tabletInput.choose")}</legend>
    ${item.options.map(
      (option) => html`<label class="option">
        <input
          type="radio" name="choice" .checked=${live(option === chosen)}
          @change=${() => page.desk.put({ choice: option })} /><span>${option}</span>
      </label>`,
    )}
  </fieldset>`;
}
