// A signature: the name typed, and drawn on the glass where one can. Without drawing it says of
// itself that it is typed.
import { html, type TemplateResult } from "lit-html";
import { live } from "lit-html/directives/live.js";
import { ref } from "lit-html/directives/ref.js";
import type { ItemOf } from "../../../domain/plan/item.ts";
import { type Signing, takeSignature } from "../../device/signing.ts";
import { phrase } from "../../language/spoken.ts";
import type { TabletPage } from "../page.ts";

const signings = new WeakMap<Element, Promise<Signing>>();

/** The name and the glass. */
export function signPart(page: TabletPage, item: ItemOf<"sign">): TemplateResult {
  const { work } = page.desk;
  const { name = "", signature } = work?.draft ?? {};
  const onName = (event: Event): void =>
    page.desk.put({ name: (event.target as HTMLInputElement).value });
  const whose = phrase(
    item.whose === "customer" ? "tabletInput.customerName" : "tabletInput.ownName",
  );
  let canvas: HTMLCanvasElement | undefined;
  const begin = (element?: Element): void => {
    canvas = element as HTMLCanvasElement | undefined;
    if (canvas && !signings.has(canvas)) signings.set(canvas, startSigning(page, canvas));
  };
  const clear = async (): Promise<void> => {
    (canvas && (await signings.get(canvas)))?.clear();
    page.desk.put({ signature: undefined });
  };
  return html`<label for="name">${whose}</label>
    <input
      id="name" class="typed" autocomplete="off" maxlength="120" .value=${live(name)}
      @input=${onName} />
    <p id="glass-words">${phrase("tabletInput.signHere")}</p>
    <canvas class="glass" role="img" aria-labelledby="glass-words" ${ref(begin)}></canvas>
    ${
      signature
        ? html`<button @click=${() => void clear()}>${phrase("tabletInput.signAnew")}</button>`
        : html`<p class="soft">${phrase("tabletInput.typedOnly")}</p>`
    }`;
}

function startSigning(page: TabletPage, canvas: HTMLCanvasElement): Promise<Signing> {
  const signing = takeSignature(canvas, () => void keepPicture());
  const keepPicture = async (): Promise<void> => {
    const picture = await (await signing).picture();
    if (picture) page.desk.put({ signature: picture });
  };
  return signing;
}
