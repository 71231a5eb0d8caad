// This tablet: what it promises, how it looks, whose it is.
import { html, type TemplateResult } from "lit-html";
import { live } from "lit-html/directives/live.js";
import { applyLook, isLook, LOOKS, type Look } from "../device/look.ts";
import { phrase } from "../language/spoken.ts";
import type { View } from "./frame.ts";
import type { TabletPage } from "./page.ts";

let look: Look = "auto";

/** Takes the look that was chosen last. */
export async function recallLook(page: TabletPage): Promise<void> {
  const chosen = await page.parts.keeper.setting("look");
  if (isLook(chosen)) look = chosen;
  applyLook(look);
}

/** About this tablet. */
export function aboutView(page: TabletPage): View {
  const { persistent, room } = page.health;
  const leave = async (): Promise<void> => {
    await page.parts.sync.signOut();
    location.reload();
  };
  return {
    back: { to: { name: "day" }, words: phrase("tablet.visits") },
    body: html`<h1 tabindex="-1">${phrase("tablet.thisTablet")}</h1>
      ${looksPart(page)}
      <h2>${phrase("tablet.store")}</h2>
      <p>${phrase(persistent ? "tablet.persistent" : "tablet.notPersistent")}</p>
      <p>${phrase(room === "enough" ? "tablet.roomEnough" : "tablet.roomLow")}
        ${phrase("tablet.stays")}</p>
      <h2>${phrase("tablet.signedIn")}</h2>
      <p>${phrase("tablet.signedInAs", { name: page.profile.name })}</p>
      <p><button @click=${() => void leave()}>${phrase("tablet.signOut")}</button></p>
      <h2>${phrase("tablet.prevails")}</h2>
      <p>${phrase("tablet.prevailing")}</p>`,
  };
}

function looksPart(page: TabletPage): TemplateResult {
  const choose = (chosen: Look): void => {
    look = chosen;
    applyLook(chosen);
    void page.parts.keeper.putSetting("look", chosen);
    page.redraw();
  };
  return html`<fieldset class="options">
    <legend>${phrase("tablet.look")}</legend>
    ${LOOKS.map(
      (one) => html`<label class="option">
        <input
          type="radio" name="look" .checked=${live(one === look)}
          @change=${() => choose(one)} /><span>${phrase(`tablet.look.${one}`)}</span>
      </label>`,
    )}
  </fieldset>`;
}
