// A snag: a small thing to be put right later, noted where it was seen.
import { html, nothing } from "lit-html";
import type { JobState } from "../job/job-state.ts";
import type { View } from "./frame.ts";
import type { TabletPage } from "./page.ts";

/** The form, and the snags this tablet noted on the job. */
export function snagView(page: TabletPage, job: JobState): View {
  const noted = job.ops.flatMap(({ op }) => (op.payload.kind === "snag" ? [op.payload.text] : []));
  const submit = (event: SubmitEvent): void => {
    event.preventDefault();
    void keepSnag(page, job, event.target as HTMLFormElement);
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

async function keepSnag(
  page: TabletPage,
  { packet }: JobState,
  form: HTMLFormElement,
): Promise<void> {
  const text = String(new FormData(form).get("text")).trim();
  if (text === "") return;
  const seen = { jobVersion: packet.job.version, lastOrder: packet.lastOrder };
  const payload = { kind: "snag", text } as const;
  try {
    page.add(await page.parts.keeper.keep({ jobId: packet.job.id, payload, photos: [], seen }));
    form.reset();
    page.tell("Kept.", "good");
    page.say("Snag kept.");
  } catch (error) {
    page.tell(error instanceof Error ? error.message : "It was not kept.", "bad");
  }
}
