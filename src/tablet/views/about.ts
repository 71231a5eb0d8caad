// This tablet: what it promises, how it looks, whose it is.
import { html, type TemplateResult } from "lit-html";
import { live } from "lit-html/directives/live.js";
import { applyLook, isLook, LOOKS, type Look } from "../device/look.ts";
import type { View } from "./frame.ts";
import type { TabletPage } from "./page.ts";

const LOOK_WORDS: Readonly<Record<Look, string>> = {
  auto: "As the tablet is set",
  light: "Light",
  dark: "Dark",
  sun: "For direct sun",
};

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
    back: { to: { name: "day" }, words: "Visits" },
    body: html`<h1 tabindex="-1">This tablet</h1>
      ${looksPart(page)}
      <h2>The store</h2>
      <p>${
        persistent
          ? "The browser has promised to keep what is stored here."
          : "The browser has not promised to keep what is stored here. Put this page on the home " +
            "screen, and send what waits whenever there is signal."
      }</p>
      <p>${
        room === "enough" ? "There is room enough." : "There is little room left; send what waits."
      }
        What the server has stays here for 30 days more.</p>
      <h2>Signed in</h2>
      <p>${page.profile.name}. Signing out keeps everything that is stored here.</p>
      <p><button @click=${() => void leave()}>Sign out</button></p>
      <h2>What prevails</h2>
      <p>This page never replaces the maker's instructions, local codes or a licensed person.</p>`,
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
    <legend>Look</legend>
    ${LOOKS.map(
      (one) => html`<label class="option">
        <input
          type="radio" name="look" .checked=${live(one === look)}
          @change=${() => choose(one)} /><span>${LOOK_WORDS[one]}</span>
      </label>`,
    )}
  </fieldset>`;
}
