// A serial or a level read off a unit: typed or scanned. Look-alike characters are pointed out and
// never changed by themselves.
import { html, nothing, type TemplateResult } from "lit-html";
import { live } from "lit-html/directives/live.js";
import { checkSerial } from "../../../domain/identifiers/check-serial.ts";
import type { ItemOf } from "../../../domain/plan/item.ts";
import { scanLabel } from "../../device/scan.ts";
import type { ItemState } from "../../job/job-state.ts";
import { otherUnitWith } from "../../job/serials-here.ts";
import { phrase, retold } from "../../language/spoken.ts";
import type { TabletPage } from "../page.ts";

/** The field, what is wrong with what stands in it, and the camera. */
export function identifyPart(
  page: TabletPage,
  item: ItemOf<"identify">,
  state: ItemState,
): TemplateResult {
  const { work } = page.desk;
  const typed = work?.draft.text ?? "";
  const put = (text: string): void => page.desk.put({ text: text.slice(0, 200) });
  const isSerial = item.what === "serial";
  const onScan = (event: Event): void => void scan(page, event.target as HTMLInputElement, put);
  return html`<label for="text"
      >${phrase(isSerial ? "tabletInput.serial" : "tabletInput.firmware")}</label>
    <input
      id="text" class="typed" autocomplete="off" autocapitalize="characters" spellcheck="false"
      .value=${live(typed)}
      @input=${(event: Event) => put((event.target as HTMLInputElement).value)} />
    ${
      isSerial
        ? html`<label class="button camera">${phrase("tabletInput.scan")}
      <input type="file" accept="image/*" capture="environment" @change=${onScan} /></label>`
        : nothing
    }
    ${scannedPart(page, put)} ${isSerial ? findingsPart(page, state, typed, put) : nothing}`;
}

function findingsPart(
  page: TabletPage,
  { subject }: ItemState,
  typed: string,
  put: (text: string) => void,
): TemplateResult | typeof nothing {
  const { unit } = subject;
  const jobId = page.desk.work?.jobId ?? "";
  const other = otherUnitWith(page.packets, typed, { jobId, unitId: unit?.id ?? "" });
  const isElsewhere = other && (unit !== undefined || other.jobId !== jobId);
  const check = unit?.serialRule && typed ? checkSerial(unit.serialRule, typed) : undefined;
  const refused = check && !check.ok ? check : undefined;
  const { suggestion } = refused ?? {};
  const take = (serial: string): void => {
    put(serial);
    page.focus("#text");
  };
  return html`${
    isElsewhere
      ? html`<p class="note bad" role="alert">${phrase("tabletInput.otherUnit", {
          position: other.position,
          model: other.modelName,
          job: other.reference,
        })}</p>`
      : nothing
  }
  ${refused ? html`<p class="note warn">${retold(refused.problem)}</p>` : nothing}
  ${
    suggestion
      ? html`<button class="option" @click=${() => take(suggestion)}>
          ${phrase("tabletInput.labelSays", { serial: suggestion })}</button>`
      : nothing
  }`;
}

/** The last scan's outcome, until one is picked or something is typed. */
const scans = new WeakMap<object, { serials: readonly string[]; problem?: string }>();

async function scan(
  page: TabletPage,
  input: HTMLInputElement,
  put: (text: string) => void,
): Promise<void> {
  const file = input.files?.[0];
  input.value = "";
  const { work } = page.desk;
  if (!file || !work) return;
  page.say(phrase("tabletInput.reads"));
  const found = await scanLabel(file);
  const [only, ...others] = found.ok ? found.serials : [];
  if (only !== undefined && others.length === 0) {
    scans.delete(work);
    put(only);
    page.say(phrase("tabletInput.read", { serial: only }));
    return;
  }
  scans.set(work, found.ok ? { serials: found.serials } : { serials: [], problem: found.problem });
  const several = { count: found.ok ? found.serials.length : 0 };
  page.say(found.ok ? phrase("tabletInput.pickOne", several) : found.problem);
}

function scannedPart(
  page: TabletPage,
  put: (text: string) => void,
): TemplateResult | typeof nothing {
  const { work } = page.desk;
  const found = work && scans.get(work);
  if (!work || !found) return nothing;
  const pick = (serial: string): void => {
    scans.delete(work);
    put(serial);
  };
  if (found.problem) return html`<p class="note warn">${found.problem}</p>`;
  return html`<fieldset class="options">
    <legend>${phrase("tabletInput.whichSerial")}</legend>
    ${found.serials.map(
      (serial) => html`<button class="option" @click=${() => pick(serial)}>${serial}</button>`,
    )}
  </fieldset>`;
}
