// What stands around every view: the band with the way back and how sending stands, what has to be
// told, the view itself, and the action in reach of the thumb.
import { html, nothing, type TemplateResult } from "lit-html";
import { phrase } from "../language/spoken.ts";
import { bannersPart } from "./banners.ts";
import type { TabletPage } from "./page.ts";
import { addressOf, type Route } from "./route.ts";
import { sendingWords } from "./sending-words.ts";

export interface View {
  /** Where "back" leads, and what it is called. */
  back?: { to: Route; words: string };
  /** Under the band: the places within a job. */
  tabs?: TemplateResult;
  body: TemplateResult;
  /** At the lower edge. */
  actions?: TemplateResult | undefined;
}

/** The whole page around one view. */
export function frame(page: TabletPage, view: View): TemplateResult {
  const toWork = (): void => document.getElementById("main")?.focus();
  return html`<button class="skip" @click=${toWork}>${phrase("tablet.toTheWork")}</button>
    <header class="band">
      ${
        view.back
          ? html`<a class="back" href=${addressOf(view.back.to)}>
              <span aria-hidden="true">‹</span> ${view.back.words}</a>`
          : html`<span class="mark">Holdpoint</span>`
      }
      <nav aria-label=${phrase("tablet.thisTablet")}>
        <a href=${addressOf({ name: "outbox" })} aria-current=${currentWhen(page, "outbox")}
          >${sendingWords(page)}</a>
        <a href=${addressOf({ name: "about" })} aria-current=${currentWhen(page, "about")}
          >${phrase("tablet.tablet")}</a>
      </nav>
    </header>
    ${view.tabs ?? nothing} ${bannersPart(page)}
    <main id="main" tabindex="-1">${view.body}</main>
    ${view.actions ? html`<footer class="reach">${view.actions}</footer>` : nothing}
    <div class="spoken" role="status" aria-live="polite">${page.spoken}</div>`;
}

const currentWhen = (page: TabletPage, name: Route["name"]): "page" | typeof nothing =>
  page.route.name === name ? "page" : nothing;
