// A snag: a small thing to be put right later, noted where it was seen.
import { html, nothing } from "lit-html";
import type { JobState } from "../job/job-state.ts";
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
    body: html`<h1 tabindex="-1">Note a snag</h1>
      <form id="snag-form" @submit=${submit}>
        <label for="snag">What has to be put right later</label>
        <textarea id="snag" name="text" rows="4" maxlength="500" required></textarea>
      </form>
      ${
        noted.length > 0
          ? html`<h2>Noted on this tablet</h2>
              <ul>${noted.map((text) => html`<li>${text}</li>`)}</ul>`
          : nothing
      }`,
    actions: html`<button class="main" form="snag-form">Keep the snag</button>`,
  };
}
