// What is written into a form of the tablet and kept like anything else that is sent later.
import type { JobState } from "../job/job-state.ts";
import { phrase } from "../language/spoken.ts";
import type { TabletPage } from "./page.ts";

/** Keeps the form's `text`, empties the form, and tells that it is kept or why it is not. */
export async function keepText(
  page: TabletPage,
  { packet }: JobState,
  form: HTMLFormElement,
  kind: "message" | "snag",
): Promise<void> {
  const text = String(new FormData(form).get("text")).trim();
  if (text === "") return;
  const seen = { jobVersion: packet.job.version, lastOrder: packet.lastOrder };
  const payload = { kind, text };
  try {
    page.add(await page.parts.keeper.keep({ jobId: packet.job.id, payload, photos: [], seen }));
    form.reset();
    page.tell(phrase("tabletVisit.kept"), "good");
    page.say(phrase(kind === "message" ? "tabletVisit.messageKept" : "tabletVisit.snagKept"));
  } catch (error) {
    page.tell(error instanceof Error ? error.message : phrase("tabletVisit.notKept"), "bad");
  }
}
