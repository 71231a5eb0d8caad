// A snag: a small thing to be put right later, noted where it was seen.
import { html, nothing } from "lit-html";
import type { JobState } from "../job/job-state.ts";
import { phrase } from "../language/spoken.ts";
import type { View } from "./frame.ts";
import { keepText } from "./keep-text.ts";
import type { TabletPage } from "./page.ts";

/** The form, and the snags this tablet noted on the job. */
export function snagView(page: TabletPage, job: JobState): View {
  const noted = job.ops.flatMap(({ op }) => (op.payload.kind === "snag" ? [op.payload.text] : []));
  const submit = (event: SubmitEvent): void => {
    event.preventDefault();
    void keepText(page, job, event.target as HTMLFormElement, "snag");
  };
  return {
    body: html`<h1 tabindex="-1">${phrase("tabletVisit.noteSnag")}</h1>
      <form id="snag-form" @submit=${submit}>
        <label for="snag">${phrase("tabletVisit.snag")}</label>
        <textarea id="snag" name="text" rows="4" maxlength="500" required></textarea>
      </form>
      ${
        noted.length > 0
          ? html`<h2>${phrase("tabletVisit.snagsHere")}</h2>
              <ul>${noted.map((text) => html`<li>${text}</li>`)}</ul>`
          : nothing
      }`,
    actions: html`<button class="main" form="snag-form">${phrase("tabletVisit.keepSnag")}</button>`,
  };
}
