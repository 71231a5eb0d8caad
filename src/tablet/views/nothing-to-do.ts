// What stands where the next item would be when there is none to do now.
import { html, type TemplateResult } from "lit-html";
import type { JobState } from "../job/job-state.ts";
import { phrase, retold } from "../language/spoken.ts";
import { clockOf } from "../language/written.ts";
import type { View } from "./frame.ts";
import type { TabletPage } from "./page.ts";
import { addressOf, type JobRoute } from "./route.ts";

/** All is met, or has to wait, or cannot be done from here. */
export function nothingToDoView(page: TabletPage, job: JobState, route: JobRoute): View {
  const jobId = job.packet.job.id;
  if (route.name === "item") {
    return {
      body: html`<h1 tabindex="-1">${phrase("tabletVisit.noSuchItem")}</h1>
        <p>${phrase("tabletVisit.noSuchItemNote")}</p>`,
    };
  }
  const next = page.desk.next(job);
  if (next.kind === "wait") return { body: waitPart(page, job, next.untilMs, next.state) };
  if (next.kind === "stuck") {
    return {
      body: html`<h1 tabindex="-1">${phrase("tabletVisit.officeNeeded")}</h1>
        <p>${retold(next.sentence)}</p>`,
    };
  }
  return {
    body: html`<h1 tabindex="-1">${phrase("tabletVisit.everyItemMet")}</h1>
      <p>${phrase("tabletVisit.everyItemMetNote")}</p>`,
    actions: html`<a class="button main" href=${addressOf({ name: "close-out", jobId })}
      >${phrase("tabletVisit.toCloseOut")}</a>`,
  };
}

function waitPart(
  page: TabletPage,
  job: JobState,
  untilMs: number,
  { compiled }: JobState["items"][number],
): TemplateResult {
  const { timeZone } = job.packet.site;
  const words = { title: compiled.item.title, time: clockOf(untilMs, timeZone) };
  return html`<h1 tabindex="-1">${phrase("tabletVisit.wait")}</h1>
    <p class="countdown" role="timer">${countdown(untilMs - Date.now())}</p>
    <p>${phrase("tabletVisit.waitUntil", words)}</p>
    ${tickWhileShown(page)}`;
}

/** "4:07"; never below nothing. */
export function countdown(leftMs: number): string {
  const left = Math.max(0, Math.ceil(leftMs / 1000));
  const [hours, minutes, seconds] = [
    Math.floor(left / 3600),
    Math.floor(left / 60) % 60,
    left % 60,
  ];
  const two = (value: number): string => String(value).padStart(2, "0");
  return hours > 0 ? `${hours}:${two(minutes)}:${two(seconds)}` : `${minutes}:${two(seconds)}`;
}

let ticking: ReturnType<typeof setTimeout> | undefined;

/** Draws again a second on, for as long as something on the page counts down. */
export function tickWhileShown(page: TabletPage): "" {
  clearTimeout(ticking);
  ticking = setTimeout(() => page.redraw(), 1000);
  return "";
}
