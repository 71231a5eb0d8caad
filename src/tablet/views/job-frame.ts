// The places within a job, and its views.
import { html, nothing, type TemplateResult } from "lit-html";
import type { JobState } from "../job/job-state.ts";
import { phrase } from "../language/spoken.ts";
import { closeOutView } from "./close-out.ts";
import { notHerePart } from "./day.ts";
import type { View } from "./frame.ts";
import { itemView } from "./item.ts";
import { listView } from "./list.ts";
import { messagesView } from "./messages.ts";
import { nothingToDoView } from "./nothing-to-do.ts";
import type { TabletPage } from "./page.ts";
import { addressOf, type JobRoute } from "./route.ts";
import { snagView } from "./snag.ts";

const back = (): View["back"] & object => ({
  to: { name: "day" },
  words: phrase("tablet.visits"),
});

/** The view of a job that the address asks for. */
export function jobView(page: TabletPage, route: JobRoute): View {
  const job = page.job(route.jobId);
  if (!job) return { back: back(), body: missingPart(page, route.jobId) };
  return { back: back(), tabs: tabsPart(job, route), ...viewOf(page, job, route) };
}

function viewOf(page: TabletPage, job: JobState, route: JobRoute): View {
  switch (route.name) {
    case "list":
      return listView(page, job);
    case "close-out":
      return closeOutView(page, job);
    case "snag":
      return snagView(page, job);
    case "messages":
      return messagesView(page, job);
    default: {
      const state = page.desk.current(job);
      return state ? itemView(page, job, state) : nothingToDoView(page, job, route);
    }
  }
}

function missingPart(page: TabletPage, jobId: string): TemplateResult {
  if (!page.isRead) return html`<p>${phrase("tablet.opening")}</p>`;
  const listed = page.visits.find((visit) => visit.jobId === jobId);
  if (listed) return html`<h1 tabindex="-1">${listed.title}</h1>${notHerePart(listed.problem)}`;
  return html`<h1 tabindex="-1">${phrase("tabletVisit.notOnTablet")}</h1>
    <p>${phrase("tabletVisit.notOnTabletNote")}</p>`;
}

function tabsPart({ packet }: JobState, route: JobRoute): TemplateResult {
  const { jobId } = route;
  const tab = (name: "next" | "list" | "close-out", words: string): TemplateResult => {
    const isHere = route.name === name || (name === "list" && route.name === "item");
    return html`<a href=${addressOf({ name, jobId })} aria-current=${isHere ? "page" : nothing}
      >${words}</a>`;
  };
  return html`<nav
    class="places" aria-label=${phrase("tabletVisit.job", { reference: packet.job.reference })}>
    ${tab("next", phrase("tabletVisit.next"))} ${tab("list", phrase("tabletVisit.allItems"))}
    ${tab("close-out", phrase("tabletVisit.closeOut"))}
  </nav>`;
}
