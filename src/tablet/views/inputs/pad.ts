import { html, type TemplateResult } from "lit-html";
import { phrase } from "../../language/spoken.ts";
import { decimalSign } from "../../language/written.ts";

interface Pad {
  value: string;
  put(text: string): void;
  /** Whether there are a decimal point, a minus and beyond-range signs. */
  signs: boolean;
}

/** The pad: large keys in the order of a meter's or a calculator's. */
export function padPart({ value, put, signs }: Pad): TemplateResult {
  const key = (words: string, next: string, label = words, more = ""): TemplateResult =>
    html`<button type="button" class="key ${more}" aria-label=${label} @click=${() => put(next)}>
      ${words}
    </button>`;
  const plain = value.replace(/^[<>]/, "");
  const mark = value.slice(0, value.length - plain.length);
  const turned = plain.startsWith("-") ? plain.slice(1) : `-${plain}`;
  const beyond = (sign: ">" | "<"): string => (mark === sign ? plain : `${sign}${plain}`);
  const digit = (one: string): TemplateResult => key(one, value + one);
  const rub = key("⌫", value.slice(0, -1), phrase("tabletInput.rubOut"));
  if (!signs) {
    return html`<div class="pad" role="group" aria-label=${phrase("tabletInput.pad")}>
      ${[..."789456123"].map(digit)}<span></span>${digit("0")}${rub}
    </div>`;
  }
  const point = decimalSign();
  const pointed = /[.,]/.test(plain) ? value : `${value}${point}`;
  const above = key(">", beyond(">"), phrase("tabletInput.above"), "sign");
  const below = key("<", beyond("<"), phrase("tabletInput.below"), "sign");
  return html`<div class="pad with-signs" role="group" aria-label=${phrase("tabletInput.pad")}>
    ${[..."789"].map(digit)}${rub}
    ${[..."456"].map(digit)}${key("−", mark + turned, phrase("tabletInput.minus"), "sign")}
    ${[..."123"].map(digit)}${above}
    ${key(point, pointed, phrase("tabletInput.point"))}${digit("0")}<span></span>${below}
  </div>`;
}
