// The input of an item, by its kind.
import { html, type nothing, type TemplateResult } from "lit-html";
import type { ItemState, JobState } from "../../job/job-state.ts";
import { phrase } from "../../language/spoken.ts";
import type { TabletPage } from "../page.ts";
import { choosePart } from "./choose.ts";
import { identifyPart } from "./identify.ts";
import { countPart, measurePart } from "./number.ts";
import { photoPart } from "./photos.ts";
import { setPart } from "./set-switches.ts";
import { signPart } from "./sign.ts";
import { tightenPart } from "./tighten.ts";

/** What is typed, ticked, taken or drawn for the item. */
export function inputPart(
  page: TabletPage,
  job: JobState,
  state: ItemState,
): TemplateResult | typeof nothing {
  const { item } = state.compiled;
  switch (item.kind) {
    case "confirm":
      return confirmPart(page);
    case "measure":
      return measurePart(page, job, state, phrase("tabletInput.reading"), item.unit);
    case "count":
      return countPart(page, job, state);
    case "choose":
      return choosePart(page, item);
    case "identify":
      return identifyPart(page, item, state);
    case "set":
      return setPart(page, job, state);
    case "tighten":
      return tightenPart(page, job, state, item);
    case "photo":
      return photoPart(page, item.photos);
    case "sign":
      return signPart(page, item);
  }
}

function confirmPart(page: TabletPage): TemplateResult {
  const isNotDone = page.desk.work?.draft.done === false;
  const toggle = (): void => page.desk.put({ done: isNotDone ? undefined : false });
  return html`<button class="option" aria-pressed=${isNotDone} @click=${toggle}>
    ${phrase("tabletInput.notDone")}
  </button>`;
}
