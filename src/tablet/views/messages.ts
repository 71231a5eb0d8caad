// What office and crew tell each other about the job: read here as it was when it was fetched, and
// written here like anything else that is kept and sent later.
import { html, nothing, type TemplateResult } from "lit-html";
import type { Packet } from "../../features/tablet/schemas.ts";
import type { JobState } from "../job/job-state.ts";
import { phrase } from "../language/spoken.ts";
import { clockOf, dayOf } from "../language/written.ts";
import type { View } from "./frame.ts";
import { keepText } from "./keep-text.ts";
import type { TabletPage } from "./page.ts";

/** A packet fetched by an older version of this page has none. */
const messagesOf = (packet: Packet): Packet["messages"] => packet.messages ?? [];

/** The words of the way there, with how many there are. */
export function messagesWords(packet: Packet): string {
  const { length } = messagesOf(packet);
  return phrase("tabletVisit.messages", { count: length });
}

/** The thread, what waits here to join it, and the form. */
export function messagesView(page: TabletPage, job: JobState): View {
  const { packet } = job;
  const messages = messagesOf(packet);
  const there = new Set(messages.map(({ id }) => id));
  const kept = job.ops.flatMap(({ op, state }) =>
    op.payload.kind === "message" && !there.has(op.opId)
      ? [{ text: op.payload.text, words: phrase(`tabletVisit.message.${state}`) }]
      : [],
  );
  const submit = (event: SubmitEvent): void => {
    event.preventDefault();
    void keepText(page, job, event.target as HTMLFormElement, "message");
  };
  return {
    body: html`<h1 tabindex="-1">${phrase("tabletVisit.messages", { count: 0 })}</h1>
      ${
        messages.length + kept.length === 0
          ? html`<p>${phrase("tabletVisit.noMessages")}</p>`
          : nothing
      }
      <ol class="rows">${messages.map((message) => row(packet, message))}
        ${kept.map(
          ({
            text,
            words,
          }) => html`<li class="row"><span><strong>${phrase("tabletVisit.you")}</strong>
            <span>${text}</span> <span class="soft">${words}</span></span></li>`,
        )}</ol>
      <form id="message-form" @submit=${submit}>
        <label for="message">${phrase("tabletVisit.writeMessage")}</label>
        <textarea id="message" name="text" rows="3" maxlength="1000" required></textarea>
      </form>`,
    actions: html`<button class="main" form="message-form"
      >${phrase("tabletVisit.keepMessage")}</button>`,
  };
}

function row({ site }: Packet, message: Packet["messages"][number]): TemplateResult {
  const { personName, text, writtenAt } = message;
  const when = `${dayOf(writtenAt, site.timeZone)}, ${clockOf(writtenAt, site.timeZone)}`;
  return html`<li class="row"><span><strong>${personName}</strong> <span>${text}</span>
    <span class="soft">${when}</span></span></li>`;
}
