// What goes with an answer besides its value: a note and photos, asked for or offered.
import { html, nothing, type TemplateResult } from "lit-html";
import { live } from "lit-html/directives/live.js";
import type { Item } from "../../../domain/plan/item.ts";
import { phrase } from "../../language/spoken.ts";
import type { TabletPage } from "../page.ts";
import { photoPart } from "./photos.ts";

/** Open where the plan asks for it, folded where it does not. */
export function evidencePart(page: TabletPage, item: Item): TemplateResult {
  const { photos = 0, note = false } = item.evidence ?? {};
  const draft = page.desk.work?.draft ?? {};
  const hasPhotos = item.kind !== "photo" && (draft.photos ?? []).length > 0;
  const isOpen = photos > 0 || note || Boolean(draft.note) || hasPhotos;
  const put = (event: Event): void =>
    page.desk.put({ note: (event.target as HTMLTextAreaElement).value });
  return html`<details class="evidence" ?open=${isOpen}>
    <summary>${phrase(
      item.kind === "photo" ? "tabletInput.note" : "tabletInput.noteAndPhotos",
    )}</summary>
    ${item.kind === "photo" ? nothing : photoPart(page, photos)}
    <label for="note">${phrase(note ? "tabletInput.noteAskedFor" : "tabletInput.note")}</label>
    <textarea id="note" rows="2" maxlength="2000" .value=${live(draft.note ?? "")} @input=${put}>
    </textarea>
  </details>`;
}
