import { html, type TemplateResult } from "lit-html";

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
  const rub = key("⌫", value.slice(0, -1), "Rub out");
  if (!signs) {
    return html`<div class="pad" role="group" aria-label="Number pad">
      ${[..."789456123"].map(digit)}<span></span>${digit("0")}${rub}
    </div>`;
  }
  const point = key(".", plain.includes(".") ? value : `${value}.`, "Decimal point");
  const above = key(">", beyond(">"), "Above the instrument's range", "sign");
  const below = key("<", beyond("<"), "Below the instrument's range", "sign");
  return html`<div class="pad with-signs" role="group" aria-label="Number pad">
    ${[..."789"].map(digit)}${rub}
    ${[..."456"].map(digit)}${key("−", mark + turned, "Minus", "sign")}
    ${[..."123"].map(digit)}${above} ${point}${digit("0")}<span></span>${below}
  </div>`;
}
