// Draws the page into its root: the view of the address, in its frame.
import { render } from "lit-html";
import { aboutView } from "./about.ts";
import { dayView } from "./day.ts";
import { frame, type View } from "./frame.ts";
import { jobView } from "./job-frame.ts";
import { outboxView } from "./outbox.ts";
import type { TabletPage } from "./page.ts";
import { signInAgainView } from "./sign-in-again.ts";

/** A drawer for the page in this root. */
export function drawInto(root: HTMLElement): (page: TabletPage) => void {
  root.replaceChildren();
  return (page) => {
    render(frame(page, viewOf(page)), root);
    if (page.isRead && performance.getEntriesByName("tablet-interactive").length === 0) {
      performance.mark("tablet-interactive");
    }
  };
}

function viewOf(page: TabletPage): View {
  const { route } = page;
  switch (route.name) {
    case "day":
      return dayView(page);
    case "outbox":
      return outboxView(page);
    case "about":
      return aboutView(page);
    case "sign-in":
      return signInAgainView(page);
    default:
      return jobView(page, route);
  }
}
